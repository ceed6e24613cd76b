"""Span load from the lattice against Schrenk's mean of chord and ellipse."""

import numpy as np
import pytest

from foamwright.aero.lattice import solve_lattice
from foamwright.aero.span import wing_lift_shape
from foamwright.strength.loads import span_load
from sample_wing import airframe_of, design

PLANS = {
    "rectangle": [{"span": "500 mm", "chord": "190 mm"}],
    "taper 0.6": [{"span": "500 mm", "chord": "200 mm", "tip_chord": "120 mm"}],
    "taper in the outer half": [
        {"span": "300 mm", "chord": "190 mm"},
        {"span": "250 mm", "tip_chord": "120 mm"},
    ],
    "slender": [{"span": "800 mm", "chord": "160 mm", "tip_chord": "140 mm"}],
}


def both(panels, lift=1.0):
    frame = airframe_of(design(wing__panel=panels, wing__spar__strips=1))
    places, shape = wing_lift_shape(solve_lattice(frame), lift)
    share = np.linspace(0.0, 1.0, 81)
    ends, spans = [panels[0]["chord"]], []
    for panel in panels:
        spans.append(float(panel["span"].split()[0]))
        ends.append(panel.get("tip_chord", panel.get("chord", ends[-1])))
    knots = np.concatenate([[0.0], np.cumsum(spans)]) / sum(spans)
    chords = np.interp(share, knots, [float(c.split()[0]) for c in ends]) / 1000.0
    y = share * sum(spans) / 1000.0
    square = np.interp(share, [*places, 1.0], [*(s * s for s in shape), 0.0])
    lattice = span_load(y, chords, mass=0.5, wing_mass=0.0, shape=np.sqrt(square))
    return lattice, span_load(y, chords, mass=0.5, wing_mass=0.0)


@pytest.mark.parametrize("name", PLANS)
def test_root_bending_agrees(name):
    """Schrenk keeps lift at a square tip, where the real one falls to nothing: more outboard."""
    lattice, schrenk = both(PLANS[name])
    assert lattice.shear[0] == pytest.approx(schrenk.shear[0], rel=1e-3)
    assert lattice.moment[0] == pytest.approx(schrenk.moment[0], rel=0.05)
    assert lattice.moment[40] == pytest.approx(schrenk.moment[40], rel=0.16)


def test_washout_moves_the_lift_inwards():
    straight, _ = both([{"span": "500 mm", "chord": "190 mm"}])
    washed, _ = both([{"span": "500 mm", "chord": "190 mm", "washout": "3 deg"}])
    assert washed.moment[0] < straight.moment[0]
