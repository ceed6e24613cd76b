"""The wing and tail tables of the design file.

The text below each key is its description in docs/use/design-file.md and in the JSON schema. Limits
catch slips of the pen; what a plane can carry is for the checks to say.
"""

from typing import Literal

from pydantic import Field

from foamwright.design.fields import Angle, Fraction, Length, OrNone, Section, degrees


class WingPanel(Section):
    """[[wing.panel]] one straight panel of a wing half, listed from the centre outwards."""

    span: Length = Field(ge=0.02, le=2.5)
    "From its root to its tip, measured along the panel."
    chord: Length | None = Field(default=None, ge=0.02, le=0.8)
    "At its root; the first panel must have it."
    tip_chord: Length | None = Field(default=None, ge=0.01, le=0.8)
    "At its tip."
    sweep: Angle = Field(default=0.0, ge=degrees(-60), le=degrees(60))
    "Of the leading edge; positive sweeps aft."
    dihedral: Angle = Field(default=0.0, ge=degrees(-60), le=degrees(60))
    "Of this panel against the horizontal."
    washout: Angle = Field(default=0.0, ge=degrees(-15), le=degrees(15))
    "Twist from its root to its tip; positive is trailing edge up."


class Spar(Section):
    """[wing.spar] board strips inside a folded wing, or under/over a plate wing."""

    strips: int = Field(default=2, ge=0, le=6)
    "Layers of board; 0 for no spar."
    strip_width: Length = Field(default=0.0254, ge=0.003, le=0.2)
    "Width of each strip."
    laid: Literal["flat", "on edge"] = "flat"
    "How the strips lie in the wing."
    position: Fraction = Field(default=0.27, ge=0.05, le=0.7)
    "Middle of the spar, as a fraction of the chord."
    extent: Fraction = Field(default=1.0, ge=0.05, le=1.0)
    "How far it reaches from the centre, as a fraction of the half span."


class Reinforcement(Section):
    """[[wing.reinforcement]] a stick, dowel, rod or tape along the span."""

    kind: Literal[
        "foam strip", "craft stick", "dowel", "bamboo", "carbon", "mesh tape", "packing tape"
    ]
    "What it is."
    stock: str | None = None
    "Stock name."
    place: Literal[
        "spar top", "spar bottom", "leading edge", "trailing edge", "skin top", "skin bottom"
    ] = "spar bottom"
    "Where it lies."
    start: Length = Field(default=0.0, ge=0.0, le=2.5)
    "Inner end, from the centre line along the half span."
    end: Length | None = Field(default=None, ge=0.0, le=2.5)
    "Outer end, from the centre line along the half span."
    count: int = Field(default=1, ge=1, le=8)
    "Pieces side by side in each half."


class Joint(Section):
    """[wing.joint] where the two halves meet."""

    brace: OrNone = "birch ply 1/8 in"
    'Stock name of the dihedral brace; "none" for no brace.'
    brace_length: Length = Field(default=0.15, ge=0.0, le=2.5)
    "From tip to tip, across the centre."
    brace_height: Length | None = Field(default=None, ge=0.002, le=0.1)
    "Of the brace at the centre."
    tape: OrNone = "fibre mesh tape"
    'Stock name of the tape over the bottom seam; "none" for no tape.'
    glue: str = "hot glue"
    "Stock name of the glue in the joint."


class Aileron(Section):
    """[wing.aileron] hinged strips at the trailing edge; left out for a plane without."""

    kind: Literal["strip", "outboard"] = "strip"
    "Full-span strips of one chord, or outboard flaps."
    chord: Length | None = Field(default=None, ge=0.005, le=0.3)
    "Of the moving part."
    start: Length = Field(default=0.04, ge=0.0, le=2.5)
    "Inner end, from the centre line along the half span."
    end: Length | None = Field(default=None, ge=0.0, le=2.5)
    "Outer end, from the centre line along the half span."
    up: Angle = Field(default=0.2618, ge=0.0, le=degrees(60))
    "Largest throw upwards."
    down: Angle = Field(default=0.2094, ge=0.0, le=degrees(60))
    "Largest throw downwards."
    gap_sealed: bool = True
    "Whether the hinge gap is taped shut."


class Attachment(Section):
    """[wing.attachment] how the wing is held on the fuselage."""

    kind: Literal["bands", "bolts", "glued"] = "bands"
    "Rubber bands over dowels, bolts, or glued for good."
    bands: int = Field(default=4, ge=0, le=30)
    "Number of rubber bands."
    band: str = "rubber band 64"
    "Stock name of the bands."
    dowel: str = "hardwood dowel 1/4 in"
    "Stock name of the dowels that the bands hook over."
    bolts: int = Field(default=2, ge=1, le=8)
    "Number of bolts."
    bolt: str = "nylon bolt M4"
    "Stock name of the bolts."


class Wing(Section):
    """[wing] the main surface."""

    build: Literal["folded", "stepped", "plate"] = "folded"
    "One board folded over a spar, flat layers with steps, or a bare plate."
    place: Literal["high", "low"] = "high"
    "On top of the fuselage or under it."
    position: Length = Field(ge=0.0, le=4.0)
    "Leading edge at the centre line, aft of the nose."
    height: Length | None = Field(default=None, ge=-0.5, le=0.5)
    "Underside at the centre line, above the fuselage line."
    incidence: Angle = Field(default=0.0262, ge=degrees(-15), le=degrees(15))
    "Of the flat bottom against the fuselage line; positive is nose up."
    panel: tuple[WingPanel, ...] = Field(min_length=1, max_length=8)
    "The panels of one half, from the centre outwards."
    creases: int = Field(default=2, ge=0, le=3)
    "Folded wing: crease lines on the top skin."
    crease_positions: tuple[Fraction, ...] | None = None
    "Folded wing: where the creases lie, as fractions of the chord."
    bevel: Length | None = Field(default=None, ge=0.0, le=0.1)
    "Folded wing: width of the bevel at the trailing edge."
    target: str = "clark-y"
    "Section that the folded one is compared with."
    steps: tuple[Fraction, ...] = (0.5,)
    "Stepped wing: where the upper layers end, as fractions of the chord, rising."
    spar: Spar = Spar.model_construct()
    "See [wing.spar]."
    reinforcement: tuple[Reinforcement, ...] = ()
    "Any number of [[wing.reinforcement]]."
    joint: Joint = Joint.model_construct()
    "See [wing.joint]."
    aileron: Aileron | None = None
    "See [wing.aileron]."
    attachment: Attachment = Attachment.model_construct()
    "See [wing.attachment]."


class TailSurface(Section):
    """[stab] or [fin] a flat plate with a hinged part; for a fin, span is its height."""

    position: Length = Field(ge=0.0, le=5.0)
    "Leading edge at its root, aft of the nose."
    span: Length = Field(ge=0.02, le=2.5)
    "From tip to tip; of a fin, its height."
    chord: Length = Field(ge=0.02, le=0.8)
    "At the root, the hinged part included."
    tip_chord: Length | None = Field(default=None, ge=0.005, le=0.8)
    "At the tip, the hinged part included."
    sweep: Angle = Field(default=0.0, ge=degrees(-60), le=degrees(75))
    "Of the leading edge; positive sweeps aft."
    height: Length | None = Field(default=None, ge=-0.5, le=1.0)
    "Of its root, above the fuselage line."
    incidence: Angle = Field(default=0.0, ge=degrees(-15), le=degrees(15))
    "Of the stab against the fuselage line; positive is leading edge up."
    hinge: Fraction = Field(default=0.65, ge=0.2, le=0.95)
    "Hinge line at the root, as a fraction of the chord."
    up: Angle = Field(default=0.1920, ge=0.0, le=degrees(60))
    "Largest throw: elevator up, rudder left."
    down: Angle = Field(default=0.1920, ge=0.0, le=degrees(60))
    "Largest throw: elevator down, rudder right."
    gap_sealed: bool = True
    "Whether the hinge gap is taped shut."
    layers: int = Field(default=1, ge=1, le=3)
    "Layers of board."
    stiffener: str | None = None
    "Stock name of a stick, rod or tape along the span."
    stiffener_extent: Fraction = Field(default=0.8, ge=0.05, le=1.0)
    "Length of the stiffener, as a fraction of the span."
    dihedral: Angle = Field(default=0.0, ge=degrees(-60), le=degrees(70))
    "Of each half; on a V-tail the V angle."


class Tail(Section):
    """[tail] how stab and fin sit together."""

    kind: Literal["plain", "T", "V"] = "plain"
    "Stab on the fuselage, stab on top of the fin, or two surfaces in a V."
