"""Left and right: a plane alike on both sides flies straight; ailerons drag the nose back."""

import math

import pytest

from airframes import trainer
from foamwright.aero.analyse import analyse
from foamwright.aero.lattice import solve_lattice
from foamwright.aero.response import State
from foamwright.aero.sections import section_polars
from foamwright.aero.setting import coefficients, setting_of
from foamwright.core.air import GRAVITY, air_at

AIR = air_at()
FRAME = trainer(dihedral=0.06)
LATTICE, POLARS = solve_lattice(FRAME), section_polars(FRAME, AIR)


def setting(side=0.0):
    return setting_of(
        FRAME, LATTICE, POLARS, air=AIR, weight=0.654 * GRAVITY, cg=(0.285, side, 0.01)
    )


def yaw_ratio(side):
    cg = (0.285, side, 0.01)
    return analyse(FRAME, LATTICE, POLARS, air=AIR, mass=0.654, cg=cg).adverse_yaw


@pytest.mark.parametrize("alpha", [-0.05, 0.0, 0.1])
@pytest.mark.parametrize("elevator", [-0.2, 0.0, 0.1])
def test_a_plane_alike_on_both_sides_flies_straight(alpha, elevator):
    found = coefficients(setting(), State(alpha, controls={"elevator": elevator}))
    assert (found.roll, found.yaw, found.side) == pytest.approx((0.0, 0.0, 0.0), abs=1e-12)


@pytest.mark.parametrize(
    "cause", [{"beta": 0.05}, {"roll": 0.1}, {"yaw": 0.1}, {"controls": {"aileron": 0.1}},
              {"controls": {"rudder": 0.1}}]
)  # fmt: skip
def test_mirrored_causes_have_mirrored_effects(cause):
    def mirrored(value):
        return {k: -v for k, v in value.items()} if isinstance(value, dict) else -value

    one = coefficients(setting(), State(0.08, **cause))
    other = coefficients(setting(), State(0.08, **{k: mirrored(v) for k, v in cause.items()}))
    assert (other.roll, other.yaw, other.side) == pytest.approx((-one.roll, -one.yaw, -one.side))
    assert other.lift == pytest.approx(one.lift)
    assert other.pitch == pytest.approx(one.pitch)


def test_lift_acts_beside_a_cg_off_the_middle():
    """CG to the right: lift, left of it, rolls right by CL y / span."""
    found = coefficients(setting(0.005), State(0.08))
    assert found.roll == pytest.approx(found.lift * 0.005 / FRAME.wing.span, rel=0.02)


def test_ailerons_swing_the_nose_away_from_the_turn():
    """Adverse yaw: rolling right yaws left, and more so the more lift [ETKIN-REID, sec. 3.12]."""
    assert -0.3 < yaw_ratio(0.0) < 0.0
    slow, fast = (
        coefficients(setting(), State(math.radians(a), controls={"aileron": -0.1})) for a in (8, 0)
    )
    assert slow.roll > 0.0 > slow.yaw
    assert slow.yaw / slow.roll < fast.yaw / fast.roll


@pytest.mark.parametrize("side", [-0.005, 0.005])
def test_adverse_yaw_does_not_hang_on_a_cg_off_the_middle(side):
    assert yaw_ratio(side) == pytest.approx(yaw_ratio(0.0), rel=0.05)
