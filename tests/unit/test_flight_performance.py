"""Performance of a plane with a parabolic polar and made-up thrust, against closed forms."""

import math

import numpy as np
import pytest

from foamwright.core.air import GRAVITY
from foamwright.flight.analyse import analyse
from foamwright.flight.curves import ThrustTable, thrust_table
from foamwright.flight.performance import Level, level_duty, level_flight, performance_of
from plane_samples import AERO, AIR, AIRFRAME, BALANCE, POWER, replaced

MASS, DENSITY, AREA = 0.56, 1.225, 0.24
ZERO, FACTOR = 0.05, 0.07
WEIGHT = MASS * GRAVITY
PARABOLA = replaced(
    AERO, drag_zero=ZERO, drag_lift_factor=FACTOR, lift_at_drag_min=0.0, lift_max=1.3
)  # above 92 % of it the polar bends up


def table(full, off=0.0):
    speed = np.linspace(0.0, 30.0, 301)
    same = np.ones_like(speed)
    zero = 0.0 * same
    return ThrustTable(
        speed, full * same, full * same, off * same, zero, zero, same < 0.0, zero, zero
    )


def performance(full, off=0.0, duty=0.5):
    level = Level(8.3, 0.6, duty, 0.6, -0.1, 3.5, 38.0)
    return performance_of(
        PARABOLA, POWER, MASS, density=DENSITY, table=table(full, off), level=level
    )


def speed_at(lift):
    return math.sqrt(2 * WEIGHT / (DENSITY * AREA * lift))


def test_best_glide_is_that_of_a_parabolic_polar():
    """L/D = 1/(2 sqrt(CD0 k)) = 1/(2 sqrt(0.05 * 0.07)) = 8.452."""
    assert performance(3.0).glide_ratio == pytest.approx(8.452, rel=2e-3)


def test_least_sink_is_at_three_times_the_zero_lift_drag():
    """CL = sqrt(3 CD0/k), CD = 4 CD0; here the stall comes before, at CL 1.1 < 1.464."""
    sink = 5.9 * DENSITY * 5.9**2 / 2 * AREA * (ZERO + FACTOR * _lift(5.9) ** 2) / WEIGHT
    assert performance(3.0).sink_rate == pytest.approx(sink, rel=2e-3)


def _lift(speed):
    return WEIGHT / (0.5 * DENSITY * speed**2 * AREA)


def test_drag_of_the_propeller_steepens_the_glide():
    assert performance(3.0, off=-0.2).glide_ratio < performance(3.0).glide_ratio
    assert performance(3.0, off=-0.2).sink_rate > performance(3.0).sink_rate


def test_top_speed_is_where_thrust_meets_drag():
    """q S CD0 + k W²/(q S) = T, the larger root: q S = (T + sqrt(T² - 4 CD0 k W²))/(2 CD0)."""
    thrust = 2.5
    pressure_area = (thrust + math.sqrt(thrust**2 - 4 * ZERO * FACTOR * WEIGHT**2)) / (2 * ZERO)
    expected = math.sqrt(2 * pressure_area / (DENSITY * AREA))
    assert performance(thrust).top_speed == pytest.approx(expected, rel=2e-3)


def test_steepest_climb_is_at_best_glide_speed():
    """sin = T/W - CD/CL of the lift that the steep path still needs; solved by repetition here."""
    thrust, angle = 2.0, 0.0
    for _ in range(50):
        need = WEIGHT * math.cos(angle)
        least = 2 * math.sqrt(ZERO * FACTOR) * need
        angle = math.asin((thrust - least) / WEIGHT)
    assert performance(thrust).climb_angle == pytest.approx(angle, rel=5e-3)


def test_climb_rate_from_power():
    """A shallow climb: rate = V (T - D)/W, largest over the speeds."""
    thrust = 0.9
    speeds = np.linspace(5.9, 20.0, 4000)
    drag = 0.5 * DENSITY * speeds**2 * AREA * (ZERO + FACTOR * _lift(speeds) ** 2)
    rate = np.max(speeds * (thrust - drag) / WEIGHT)
    assert performance(thrust).climb_rate == pytest.approx(rate, rel=0.01)


def test_a_plane_that_cannot_hold_level_says_so():
    result = performance(0.3, duty=1.4)
    assert result.level_throttle is None
    assert result.endurance == 0.0
    assert result.top_speed == 0.0
    assert result.climb_rate < 0.0
    assert any("does not hold level flight" in note for note in result.notes)
    assert any("at no speed" in note for note in result.notes)


def test_endurance_by_hand():
    """0.8 * 4680 A s / (3.5 + 0.25) A = 998 s."""
    assert performance(3.0).endurance == pytest.approx(998.4, rel=1e-3)


def test_level_flight_balances_thrust_and_drag():
    speed, drag, duty = level_duty(PARABOLA, POWER, MASS, density=DENSITY)
    curves = thrust_table(POWER, PARABOLA.stall_speed, cruise_duty=duty, density=DENSITY)
    level = level_flight(POWER, curves, speed=speed, drag=drag, duty=duty)
    assert level.speed == pytest.approx(1.4 * 5.9)
    assert level.thrust == pytest.approx(level.drag, rel=1e-3)
    assert level.slope < 0.0
    assert 0.0 < level.duty < 1.0


def test_the_whole_room():
    result = analyse(AIRFRAME, AERO, POWER, BALANCE, air=AIR, throw_speed=None, throw_height=1.8)
    assert [mode.name for mode in result.modes] == [
        "short period",
        "phugoid",
        "Dutch roll",
        "roll",
        "spiral",
    ]
    assert result.kinetic_energy == pytest.approx(0.5 * 0.56 * result.performance.top_speed**2)
    assert result.wind_limit == pytest.approx(0.4 * 1.4 * 5.9)
    # a plane of about a metre and half a kilo cruises at a third to a little under half throttle,
    # common practice, no source
    assert 0.2 < result.performance.level_throttle < 0.55
