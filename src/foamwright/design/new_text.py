"""The text of a starting design file, with a place for every figure.

Comments are moved into one column afterwards.
"""

from string import Template

START = Template(
    """\
# $title: $words, $span span.
# Every figure is a starting point by common practice; change it and ask `foamwright check` again.
# Values are written with their unit: "48 in", "7 1/2 in", "430 g", "1300 mAh", "2 deg".
# Lengths along the plane are measured aft from the nose (the front of the firewall).

name = $name
units = "$units"               # how reports and drawings speak

[field]
altitude = "0 m"
temperature = "15 degC"
wind = "$wind"                # the usual wind; a first flight wants less

[pilot]
level = "$level" # "beginner", "returning" or "experienced"

[board]
stock = "light display board"
length = "30 in"
width = "20 in"
$board_mass
count = 4

[wing]
build = "$build"             # "folded", "stepped" or "plate"
place = "high"
position = "$position"          # leading edge; $nose_share of the span behind the nose
incidence = "$incidence"          # $incidence_words
$section

# One half, from the centre outwards; the chord is span / $aspect.
$panels

[wing.spar]
$spar
$strength
[wing.joint]
brace = "birch ply 1/8 in"
tape = "fibre mesh tape"     # over the bottom seam, which opens first
$aileron
[wing.attachment]
bands = $bands                    # rubber bands, the last two crossed

[stab]
position = "$stab_position"
span = "$stab_span"
chord = "$stab_chord"             # area $stab_share of the wing; 15 to 25 % is usual
hinge = "65 %"               # elevator 35 % of the chord; 30 to 50 % is usual
up = "15 deg"                # enough to hold the stall; less for the first flight
down = "12 deg"
stiffener = "bamboo skewer 3 mm"

[fin]
position = "$fin_position"
span = "$fin_height"              # its height
chord = "$fin_chord"             # area $fin_share of the wing; a third to half of the stab
tip_chord = "$fin_tip"
sweep = "15 deg"
hinge = "55 %"
up = "$rudder"
down = "$rudder"

[fuselage]
build = "profile"            # layers glued side by side, or "box"
length = "$length"            # $length_share of the span; 70 to 80 % is usual
nose_height = "$nose_height"
height = "$height"
tail_height = "$tail_height"
layers = $layers
saddle_layers = $saddle
nose_layers = $saddle

[motor]
stock = $motor
down_thrust = "2 deg"        # 0 to 3 deg
right_thrust = "2 deg"       # 0 to 3 deg

[motor.firewall]
stock = "birch ply 1/8 in"   # 1/16 in is not nearly enough

[propeller]
kind = "$propeller"
diameter = "$diameter"
pitch = "$pitch"

[controller]
stock = "$controller"

[pack]
cells = $cells
capacity = "$capacity"
# mass = "110 g"             # weigh yours
position = "$pack_position"          # its middle; `foamwright check` says where it must sit

[receiver]
stock = "$receiver"

$servos
"""
)

AILERON_PANEL = Template(
    """\
[[wing.panel]]
span = "$half"
chord = "$chord"
dihedral = "2 deg" # 0 to 3 deg with ailerons
washout = "1 deg" # 1 to 3 deg; the tip stalls last"""
)

RUDDER_PANELS = Template(
    """\
[[wing.panel]] # inner panel, 55 % of the half span
span = "$inner"
chord = "$chord"
dihedral = "2 deg" # 0 to 3 deg

[[wing.panel]] # outer panel; turns come from its dihedral
span = "$outer"
tip_chord = "$chord"
dihedral = "11 deg" # 8 to 15 deg without ailerons
washout = "1 deg" # 1 to 3 deg; the tip stalls last"""
)

AILERON = Template(
    """
[wing.aileron]
kind = "strip"
chord = "$aileron_chord" # 15 to 20 % of the chord
start = "$aileron_start"
end = "$aileron_end"
up = "14 deg" # first flight: 12 to 15 deg
down = "6 deg" # less down than up, or the nose swings out of the turn
"""
)

WEIGH = """\
# mass = "126 g" # one whole sheet on a kitchen scale: the most useful number here"""
STEPPED = "steps = [0.5] # one upper layer, on the front half"
FOLDED = "creases = 2 # 1 to 3; more make a rounder top"
NO_SPAR = "strips = 0 # the layers carry it"
TAPE_RUN = """
[[wing.reinforcement]] # the top paper creases first; a run of tape holds it
kind = "mesh tape"
place = "spar top"
"""
CARBON_RUN = Template(
    """
[[wing.reinforcement]] # a long wing needs more than board where it bends most
kind = "carbon"
stock = "carbon tube 6x4 mm"
place = "spar bottom"
end = "$end"
"""
)
