"""Doubt of the natural motions: first order against derivatives drawn at random."""

from dataclasses import fields, replace

import numpy as np
import pytest

from foamwright.aero.doubts import PREDICTION
from foamwright.flight.mode_spread import ALONG_PATH, with_spread
from foamwright.flight.modes import modes_from_derivatives
from foamwright.flight.motion import Condition, LateralDerivatives, LongitudinalDerivatives

CONDITION = Condition(
    mass=1.96, speed=17.0, density=1.225, area=0.31, span=1.27, chord=0.25,
    inertia=(0.0715, 0.0864, 0.1536), inertia_xz=0.014,
)  # fmt: skip
PITCH = LongitudinalDerivatives(
    axial_speed=-0.13, axial_alpha=0.16, normal_speed=0.0, normal_alpha=-4.62,
    normal_pitch_rate=-6.16, normal_alpha_rate=0.0, pitch_speed=0.0, pitch_alpha=-0.723,
    pitch_pitch_rate=-13.57, pitch_alpha_rate=0.0,
)  # fmt: skip
SIDE = LateralDerivatives(
    side_beta=-0.489, side_roll_rate=-0.0375, side_yaw_rate=0.15, roll_beta=-0.0545,
    roll_roll_rate=-0.45, roll_yaw_rate=0.109, yaw_beta=0.0723, yaw_roll_rate=0.118,
    yaw_yaw_rate=-0.183,
)  # fmt: skip


def drawn(table, share, chance):
    doubts = {**PREDICTION, **ALONG_PATH}
    return replace(table, **{
        f.name: getattr(table, f.name) * (1.0 + share * doubts[f.name] * chance.normal())
        for f in fields(table)
    })  # fmt: skip


def test_first_order_meets_chance():
    """A third of the usual doubts, for roots to keep their kind."""
    share, chance = 1.0 / 3.0, np.random.default_rng(4)
    shares = {**PREDICTION, **ALONG_PATH}
    doubts = {
        f.name: share * shares[f.name] * abs(getattr(table, f.name))
        for table in (PITCH, SIDE)
        for f in fields(table)
    }
    modes = modes_from_derivatives(CONDITION, PITCH, SIDE)
    told = with_spread(modes, CONDITION, PITCH, SIDE, doubts=doubts)
    many = [
        modes_from_derivatives(CONDITION, drawn(PITCH, share, chance), drawn(SIDE, share, chance))
        for _ in range(600)
    ]
    for k, mode in enumerate(told):
        reals = np.std([row[k].real for row in many])
        assert mode.real_spread == pytest.approx(reals, rel=0.12)
        if mode.imag:
            assert mode.imag_spread == pytest.approx(np.std([r[k].imag for r in many]), rel=0.12)
        else:
            assert mode.imag_spread == 0.0


def test_one_doubt_alone_is_the_roll_motions():
    """Roll damping alone in doubt: the roll motion's eigenvalue goes with it, near enough."""
    none = {f.name: 0.0 for table in (PITCH, SIDE) for f in fields(table)}
    modes = modes_from_derivatives(CONDITION, PITCH, SIDE)
    told = {
        m.name: m
        for m in with_spread(
            modes, CONDITION, PITCH, SIDE, doubts={**none, "roll_roll_rate": 0.045}
        )
    }
    assert told["roll"].real_spread == pytest.approx(0.1 * abs(told["roll"].real), rel=0.15)
    assert told["short period"].real_spread == told["phugoid"].real_spread == 0.0


def test_meeting_roots_tell_no_doubt():
    still = replace(SIDE, **{f.name: 0.0 for f in fields(SIDE)})
    modes = modes_from_derivatives(CONDITION, PITCH, still)
    assert with_spread(modes, CONDITION, PITCH, still)[4].real_spread is None
