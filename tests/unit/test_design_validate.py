"""Shapes that cannot be: one clear message each, on the line of the key that is wrong."""

import pytest
from design_text import TEXT, bent

from foamwright.core.errors import DesignErrors
from foamwright.design.load import parse_design
from foamwright.design.model import WingPanel
from foamwright.design.validate_wing import chord_at, half_span


def added(words):
    return f"{TEXT}\n{words}"


def with_tail(words):
    return bent("[stab]", words)


AILERON = '[wing.aileron]\nchord = "35 mm"\n'
SHAPES = [
    (
        bent('chord = "200 mm"\n', ""),
        "plane.toml:6: wing.panel.0.chord is missing; the first panel needs its chord. "
        'Write chord = "8 in" under the first [[wing.panel]].',
    ),
    (
        added('[wing.spar]\nstrip_width = "130 mm"'),
        "plane.toml:27: wing.spar.strip_width is 130 mm; it must be at most 60 % of the "
        "chord it lies "
        "in (200 mm). Make it 120 mm or less, or end the spar further in with [wing.spar] extent.",
    ),
    (
        added('[wing.spar]\nstrip_width = "60 mm"\nposition = 0.1'),
        "plane.toml:28: wing.spar.position is 10 %, which puts the spar ahead of the leading edge; "
        "strips 60 mm wide fit from 15 % to 85 % of the chord. "
        "Move it, or make the strips narrower.",
    ),
    (
        added('[[wing.reinforcement]]\nkind = "carbon"\nstart = "200 mm"\nend = "100 mm"'),
        "plane.toml:28: wing.reinforcement.0.start is 200 mm; it must be less than where it ends, "
        "100 mm. Swap or mend them.",
    ),
    (
        added('[[wing.reinforcement]]\nkind = "carbon"\nend = "600 mm"'),
        "plane.toml:28: wing.reinforcement.0.end is 600 mm; the half span is 500 mm. "
        "Measure it from the centre line, along one half.",
    ),
    (
        added(AILERON + 'start = "300 mm"\nend = "300 mm"'),
        "plane.toml:28: wing.aileron.start is 300 mm; it must be less than where it ends, 300 mm. "
        "Swap or mend them.",
    ),
    (
        added(AILERON + 'end = "501 mm"'),
        "plane.toml:28: wing.aileron.end is 501 mm; the half span is 500 mm. "
        "Measure it from the centre line, along one half.",
    ),
    (
        added('[wing.aileron]\nchord = "130 mm"'),
        "plane.toml:27: wing.aileron.chord is 130 mm; it must be at most 60 % of the "
        "wing chord there "
        "(200 mm). 15 to 25 % is usual.",
    ),
    (
        added('[wing.joint]\nbrace_length = "1200 mm"'),
        "plane.toml:27: wing.joint.brace_length is 1200 mm; it must be no longer than the wing, "
        "1000 mm. A sixth of the span is usual.",
    ),
    (
        bent("[wing]\n", "[wing]\ncrease_positions = [0.4, 0.2]\n"),
        "plane.toml:4: wing.crease_positions is [40 %, 20 %]; crease positions must rise "
        "from one to "
        "the next. List them from the leading edge backwards.",
    ),
    (
        bent("[wing]\n", '[wing]\ncrease_positions = ["20 %", 0.4, 0.6]\n'),
        "plane.toml:4: wing.crease_positions is a list of 3; wing.creases is 2, and each "
        "crease needs "
        "one position. Write creases = 3, or list 2.",
    ),
    (
        bent("[wing]\n", '[wing]\nbuild = "stepped"\nsteps = [0.75, 0.5]\n'),
        "plane.toml:5: wing.steps is [75 %, 50 %]; steps must rise from one to the next. "
        "List them from the leading edge backwards.",
    ),
    (
        bent("[wing]\n", '[wing]\nbuild = "stepped"\nsteps = []\n'),
        "plane.toml:5: wing.steps is a list of 0; a stepped wing has 1 to 3 steps. "
        "Write steps = [0.5].",
    ),
    (
        bent("[wing]\n", '[wing]\nbuild = "stepped"\nsteps = [1.0]\n'),
        "plane.toml:5: wing.steps is [100 %]; each step must lie at 10 to 95 % of the chord.",
    ),
    (
        added("[wing.attachment]\nbands = 1"),
        "plane.toml:27: wing.attachment.bands is 1; a wing held by bands needs at least 2. "
        "Four or more is usual.",
    ),
    (
        bent('position = "700 mm"', 'position = "390 mm"'),
        "plane.toml:11: stab.position is 390 mm; it must be behind the wing's trailing edge, at "
        "400 mm. Move the stab aft.",
    ),
    (
        bent('position = "690 mm"', 'position = "2 m"'),
        "plane.toml:16: fin.position is 2000 mm; the fin would stand behind the "
        "fuselage, which ends "
        "at 830 mm. Move the fin forward or make the fuselage longer.",
    ),
    (
        bent('chord = "150 mm"', 'chord = "150 mm"\nsweep = "74 deg"'),
        "plane.toml:19: fin.sweep is 74 deg; its tip would lie 558 mm from its root, clear of the "
        "surface. Sweep it less.",
    ),
    (
        with_tail('[tail]\nkind = "V"\n\n[stab]\ndihedral = "35 deg"'),
        "plane.toml:19: fin is there; a V-tail has no fin. "
        'Take [fin] out, or write kind = "plain" under [tail].',
    ),
    (
        bent(
            '[fin]\nposition = "690 mm"\nspan = "160 mm"\nchord = "150 mm"\n',
            '[tail]\nkind = "V"\n',
        ),
        "plane.toml:10: stab.dihedral is 0 deg; each half of a V-tail stands at 15 deg or more. "
        'Write dihedral = "35 deg" under [stab].',
    ),
    (
        bent('[fin]\nposition = "690 mm"\nspan = "160 mm"\nchord = "150 mm"\n', ""),
        "plane.toml:1: fin is missing; a plain tail needs one. "
        'Add [fin] with position, span and chord, or write kind = "V" under [tail].',
    ),
    (
        bent('length = "830 mm"', 'length = "830 mm"\nsaddle_layers = 2'),
        "plane.toml:22: fuselage.saddle_layers is 2; it counts all layers there, so at "
        "least the 3 of "
        "the rest. Write saddle_layers = 3 or more.",
    ),
    (
        bent('length = "830 mm"', 'length = "830 mm"\nnose_length = "900 mm"'),
        "plane.toml:22: fuselage.nose_length is 900 mm; the fuselage is only 830 mm long. "
        "Make it shorter.",
    ),
    (
        added('[[fuselage.station]]\nx = "0 mm"\nbottom = "-30 mm"\ntop = "30 mm"'),
        "plane.toml:26: fuselage.station is a single one; an outline needs at least two, "
        "at the nose "
        "and at the tail end. Add another.",
    ),
    (
        bent('position = "90 mm"', 'position = "-20 mm"'),
        "plane.toml:24: pack.position is -20 mm; that is ahead of the nose; 0 to 830 mm "
        "is accepted. "
        "Measure from the nose, aft is positive.",
    ),
    (
        bent('position = "90 mm"', 'position = "90 cm"'),
        "plane.toml:24: pack.position is 900 mm; that is behind the tail end; 0 to 830 "
        "mm is accepted. "
        "Measure from the nose, aft is positive.",
    ),
    (
        added('tray_front = "120 mm"\ntray_back = "100 mm"'),
        "plane.toml:26: pack.tray_front is 120 mm; it must be ahead of tray_back, 100 mm. "
        "Swap or mend them.",
    ),
    (
        added('tray_front = "100 mm"\ntray_back = "150 mm"'),
        "plane.toml:24: pack.position is 90 mm; the tray reaches from 100 mm to 150 mm. "
        "Move the pack, or widen the tray.",
    ),
    (
        added('[receiver]\nposition = "1 m"'),
        "plane.toml:27: receiver.position is 1000 mm; that is behind the tail end; 0 to 830 mm is "
        "accepted. Measure from the nose, aft is positive.",
    ),
    (
        added('[[servo]]\nrole = "elevator"\nside = "-600 mm"'),
        "plane.toml:28: servo.0.side is -600 mm; the half span is 500 mm. Bring it inboard.",
    ),
    (
        added('[board]\nwidth = "150 mm"\nmargin = "70 mm"'),
        "plane.toml:28: board.margin is 70 mm; a sheet 150 mm wide has no room left between its "
        'margins. Use "6 mm".',
    ),
    (
        added('[[servo]]\nrole = "aileron"'),
        'plane.toml:27: servo.0.role is "aileron"; this wing has no ailerons. '
        "Add [wing.aileron], or take the servo out.",
    ),
    (
        added('[[servo]]\nrole = "vee left"'),
        'plane.toml:27: servo.0.role is "vee left"; the tail is plain, not V. '
        'Write role = "elevator" or "rudder".',
    ),
    (
        bent('length = "830 mm"', 'length = "380 mm"'),
        None,  # wing, stab and fin are all told
    ),
]


@pytest.mark.parametrize(("text", "message"), SHAPES)
def test_impossible_shapes(text, message):
    with pytest.raises(DesignErrors) as caught:
        parse_design(text, "plane.toml")
    found = [str(error) for error in caught.value.errors]
    if message is None:
        assert [error.field for error in caught.value.errors] == [
            "wing.position",
            "stab.position",
            "fin.position",
        ]
    else:
        assert found == [message]


def test_stations_rise_and_stand_upright():
    stations = "\n".join(
        f'[[fuselage.station]]\nx = "{x} mm"\nbottom = "{low} mm"\ntop = "{high} mm"'
        for x, low, high in [(0, -20, 20), (300, 30, 20), (200, -20, 20), (900, -5, 5)]
    )
    with pytest.raises(DesignErrors) as caught:
        parse_design(added(stations), "plane.toml")
    assert [error.field for error in caught.value.errors] == [
        "fuselage.station.1.top",
        "fuselage.station.2.x",
        "fuselage.station.3.x",
    ]


def test_a_v_tail_can_be_had():
    text = bent(
        '[fin]\nposition = "690 mm"\nspan = "160 mm"\nchord = "150 mm"\n', '[tail]\nkind = "V"\n'
    )
    text = bent('span = "400 mm"', 'span = "400 mm"\ndihedral = "35 deg"', text)
    design = parse_design(text + '\n[[servo]]\nrole = "vee left"').design
    assert design.fin is None


def test_a_plate_wing_needs_no_rising_creases():
    parse_design(bent("[wing]\n", '[wing]\nbuild = "plate"\ncrease_positions = [0.4, 0.2]\n'))


def test_chord_along_the_half_span():
    panels = [
        WingPanel(span=0.4, chord=0.2),
        WingPanel(span=0.2, tip_chord=0.1),
    ]
    assert chord_at(panels, 0.0) == 0.2
    assert chord_at(panels, 0.4) == 0.2
    assert chord_at(panels, 0.5) == pytest.approx(0.15)  # half-way from 0.2 to 0.1
    assert chord_at(panels, 0.9) == 0.1
    assert half_span(parse_design(TEXT).design) == 0.5
