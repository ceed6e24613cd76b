"""Trim with power, thrust angles, rudder-only turning and gusts."""

import math
from dataclasses import replace

import pytest

from airframes import trainer
from foamwright.aero.analyse import analyse
from foamwright.aero.lattice import solve_lattice
from foamwright.aero.sections import section_polars
from foamwright.core.air import GRAVITY, air_at
from foamwright.flight.gusts import gust_response, gust_wind_limit
from foamwright.flight.powered import GLIDE, Loaded, Propulsion, power_trim, trim_with_power
from foamwright.flight.rudder import rudder_turn
from plane_samples import AERO

AIR = air_at()
FRAME = trainer()
CG, MASS = (0.285, 0.0, 0.0), 0.654
FULL = Propulsion(5.0, 0.06, 150.0, 0.15)


@pytest.fixture(scope="module")
def aero():
    lattice, polars = solve_lattice(FRAME), section_polars(FRAME, AIR)
    return analyse(FRAME, lattice, polars, air=AIR, mass=MASS, cg=CG)


def loaded(aero, frame=FRAME):
    return Loaded(frame, aero, MASS, CG, AIR.density)


def test_glide_at_trim_speed_is_the_trim_of_the_air_alone(aero):
    found = trim_with_power(loaded(aero), GLIDE, speed=aero.trim_speed)
    assert found.alpha == pytest.approx(aero.trim_alpha, abs=1e-4)
    assert found.elevator == pytest.approx(aero.trim_elevator, abs=1e-4)
    assert found.tail_pressure == pytest.approx(1.0)


def test_slower_takes_more_angle_and_more_up_elevator(aero):
    slow, fast = (trim_with_power(loaded(aero), GLIDE, speed=v) for v in (8.0, 14.0))
    assert slow.alpha > fast.alpha
    assert slow.elevator < fast.elevator


def test_lift_carries_the_weight_by_hand(aero):
    """At twice the speed the lift coefficient is a quarter; alpha falls by 0.75 CL/a or so."""
    at, double = (
        trim_with_power(loaded(aero), GLIDE, speed=v * aero.trim_speed) for v in (1.0, 2.0)
    )
    flow = 0.5 * AIR.density * aero.trim_speed**2 * aero.wing_area
    d = aero.derivatives
    lost = d.lift_alpha * (at.alpha - double.alpha)
    lost += d.lift_elevator * (at.elevator - double.elevator)
    assert lost == pytest.approx(0.75 * MASS * GRAVITY / flow, rel=1e-6)


def turned(down=0.0, right=0.0):
    axis = (
        -math.cos(down) * math.cos(right),
        math.cos(down) * math.sin(right),
        -math.sin(down),
    )
    return replace(FRAME, thrust_axis=axis)


def test_the_wanted_down_thrust_leaves_no_moment(aero):
    speed = aero.trim_speed
    wanted = power_trim(loaded(aero), FULL, speed=speed).down_thrust
    mended = power_trim(loaded(aero, turned(down=wanted)), FULL, speed=speed)
    assert abs(mended.nose_up) < 0.02 * FULL.thrust * CG[0]
    assert mended.down_thrust == pytest.approx(wanted, abs=0.01)


def test_more_down_thrust_asks_for_less_down_elevator(aero):
    none, some = (
        power_trim(loaded(aero, turned(down=a)), FULL, speed=9.0).elevator_change
        for a in (0.0, 0.1)
    )
    assert some < none


def test_a_right_turning_propeller_wants_right_thrust(aero):
    """Left turn on power; 2 to 3 degrees right are usual, common practice, no source."""
    found = power_trim(loaded(aero), FULL, speed=9.0)
    assert found.nose_left > 0.0
    assert math.radians(0.5) < found.right_thrust < math.radians(8.0)
    none = power_trim(loaded(aero), replace(FULL, torque=0.0, turns=0.0), speed=9.0)
    assert none.right_thrust < found.right_thrust


def test_rudder_alone_banks_a_plane_with_dihedral():
    """By hand: slip -Cnr d/Cnb, roll -(Clb slip + Clr d)/Clp."""
    frame = trainer()
    found = rudder_turn(frame, AERO, speed=8.0, roll_inertia=0.012, density=1.225)
    d, turn = AERO.derivatives, -0.35 * 0.82
    slip = -d.yaw_rudder * turn / d.yaw_beta
    assert found.sideslip == pytest.approx(slip, rel=0.01)
    rate = -(d.roll_beta * slip + d.roll_rudder * turn) / d.roll_roll_rate * 16.0 / 1.2
    assert found.roll_rate == pytest.approx(rate, rel=0.01)


def test_without_dihedral_rudder_alone_does_not_bank():
    flat = replace(AERO, derivatives=replace(AERO.derivatives, roll_beta=0.02))
    found = rudder_turn(trainer(), flat, speed=8.0, roll_inertia=0.012, density=1.225)
    assert found.bank_time is None
    assert "dihedral" in found.words


def test_gust_load_of_a_worked_case(reproduce):
    """W/S 22 N/m², c 0.2, a 4.2, 10 m/s, gust 3 m/s: dn = Kg rho U V a/(2 W/S) = 1.393."""
    plane = replace(AERO, mean_chord=0.2, lift_slope=4.2, wing_area=0.24)
    found = gust_response(plane, 22.0 * 0.24 / 9.81, speed=10.0, wind=6.0, density=1.225)
    assert found.load_factor_change == pytest.approx(1.393, rel=0.01)


def test_wind_limit_in_gusts_is_where_the_first_limit_gives_out():
    limit, first = gust_wind_limit(AERO, 0.56, speed=8.3, density=1.225)
    below, above = (
        gust_response(AERO, 0.56, speed=8.3, wind=limit * k, density=1.225) for k in (0.99, 1.01)
    )
    state = {
        "stall": lambda r: not r.stalls,
        "headway": lambda r: r.penetrates,
        "roll": lambda r: r.roll_held,
    }[first]
    assert state(below)
    assert not state(above)
