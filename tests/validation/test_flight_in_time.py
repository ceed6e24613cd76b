"""Flight in time: ballistics, energy, textbook airplane, Lanchester, shares and wind.

Thrown bodies by Galilei's and Newton's formulas. Nelson: Flight Stability and Automatic Control,
2nd ed., appendix B (general aviation airplane) with the worked examples of chapters 4 and 5, here
flown in time from a disturbance and read off as one reads a trace; figures from memory. Jet
transport: Etkin and Reid, Dynamics of Flight, 3rd ed., sec. 6.7. Lanchester 1908 as in sec. 6.3
there. Wilson's interval: a general-purpose library. Wind: the low-altitude form of MIL-F-8785C
sec. 3.7.3.4, from memory.
"""

import math
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from scipy.stats import binomtest

import foamwright
from derivative_craft import airless, derivative_craft
from foamwright.core.air import GRAVITY
from foamwright.flight.modes import lanchester_period
from foamwright.flight.simulation.advance import advance
from foamwright.flight.simulation.fly import Path as Flight
from foamwright.flight.simulation.fly import fly, never
from foamwright.flight.simulation.small_motions import small_motion_matrix
from foamwright.flight.simulation.state import QUATERNION, RATES, attitude_of, start_state
from foamwright.flight.simulation.throws import share_interval
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.simulation.wind import turbulence_at, wind_at, windy

EXAMPLES = Path(__file__).parents[2] / "examples"
FOOT, POUND = 0.3048, 0.45359237
SLUG_FOOT2, SLUG_FOOT3 = 14.593903 * FOOT**2, 14.593903 / FOOT**3
LONG = {"CLa": 4.44, "CDa": 0.33, "Cma": -0.683, "CLq": 0.0, "Cmq": -9.96, "Cmadot": -4.36}
# Printed side force per sideslip holds the drag's share, which the equations add by themselves.
LAT = {
    "Cyb": -0.564 + 0.05, "Clb": -0.074, "Cnb": 0.071, "Clp": -0.410, "Cnp": -0.0575,
    "Clr": 0.107, "Cnr": -0.125,
}  # fmt: skip


@pytest.fixture(scope="module")
def stone():
    return airless(foamwright.load(EXAMPLES / "brindle-cob.toml").craft)


def general_aviation(**changes):
    q = 0.5 * 0.002377 * SLUG_FOOT3 * (176.0 * FOOT) ** 2
    long = LONG | {k: v for k, v in changes.items() if k in LONG}
    return derivative_craft(
        mass=2750.0 * POUND,
        inertia=(1048.0 * SLUG_FOOT2, 3000.0 * SLUG_FOOT2, 3530.0 * SLUG_FOOT2),
        area=184.0 * FOOT**2,
        span=33.4 * FOOT,
        chord=5.7 * FOOT,
        density=0.002377 * SLUG_FOOT3,
        speed=176.0 * FOOT,
        lift=2750.0 * POUND * GRAVITY / (q * 184.0 * FOOT**2),
        drag=changes.get("drag", 0.05),
        long=long,
        lat=LAT,
    )


def level(craft, **off):
    """Trimmed level flight, 1 km up, with a disturbance."""
    state = start_state(0, speed=176.0 * FOOT, height=1000.0, throttle=1.0)
    for place, value in off.items():
        state[0, int(place[1:])] += value
    return state


def trace(craft, state, duration, step=0.01) -> Flight:
    return fly(
        craft, state, lambda t, s, w: np.tile([1.0, 0, 0, 0], (len(s), 1)), duration=duration,
        ending=never, step=step, every=1,
    )  # fmt: skip


def ring(times, values):
    """Period and growth of a decaying swing from its zero crossings and its extremes."""
    down = np.flatnonzero((values[:-1] > 0.0) & (values[1:] <= 0.0))
    at = times[down] + (times[1] - times[0]) * values[down] / (values[down] - values[down + 1])
    period = float(np.diff(at).mean())
    peaks = [values[a : b + 1].max() for a, b in pairwise(down)]
    growth = math.log(peaks[-1] / peaks[0]) / (period * (len(peaks) - 1))
    return period, growth


def test_a_stone_follows_its_parabola(reproduce, stone):
    state = start_state(stone.strip_count, speed=8.0, height=2.0, attitude=(0.0, 0.5, 0.0))
    for _ in range(50):
        state = advance(stone, state, np.zeros(4), np.zeros(3), step=0.01)
    time = 0.5
    rows = (
        ("ahead, m", state[0, 0], 8.0 * math.cos(0.5) * time),
        ("height, m", -state[0, 2], 2.0 + 8.0 * math.sin(0.5) * time - 0.5 * GRAVITY * time**2),
    )
    for quantity, computed, printed in rows:
        reproduce(
            f"stone thrown at 8 m/s, 29 deg, after 0.5 s: {quantity}", computed=computed,
            printed=printed, near=1e-9, source="parabola",
        )  # fmt: skip


def test_order_of_the_steps(reproduce, stone):
    """A tumbling stone: its path is known, the error falls with the square of the step."""
    off = {}
    for step in (0.01, 0.005):
        state = start_state(stone.strip_count, speed=8.0, height=50.0, attitude=(0.0, 0.5, 0.0))
        state[0, RATES] = (3.0, 4.0, -2.0)
        for _ in range(round(0.5 / step)):
            state = advance(stone, state, np.zeros(4), np.zeros(3), step=step)
        right = (8.0 * math.cos(0.5) * 0.5, 0.0, -50.0 - 8.0 * math.sin(0.5) * 0.5)
        right = np.add(right, (0.0, 0.0, 0.5 * GRAVITY * 0.25))
        off[step] = float(np.linalg.norm(state[0, :3] - right))
    reproduce(
        "tumbling stone: order of the error of one step rule", printed=2.0, near=0.15,
        computed=math.log2(off[0.01] / off[0.005]), source="second-order rule",
    )  # fmt: skip


def test_energy_and_spin_are_kept(reproduce, stone):
    state = start_state(stone.strip_count, speed=8.0, height=200.0)
    state[0, RATES] = (5.0, 0.2, 3.0)
    flown = trace(stone, state, 4.0, step=0.005)
    b = stone.builds

    def energy(s):
        spin = s[0, RATES]
        turning = 0.5 * spin @ b.inertia[0] @ spin
        moving = 0.5 * b.mass[0] * (s[0, 7:10] @ s[0, 7:10])
        return turning, moving - b.mass[0] * GRAVITY * s[0, 2]

    first, last = energy(flown.states[0]), energy(flown.states[-1])
    for name, k in (("of turning", 0), ("of place and motion", 1)):
        reproduce(
            f"tumbling without air for 4 s: energy {name}, end over start",
            computed=last[k] / first[k], printed=1.0, near=2e-3, source="conservation of energy",
        )  # fmt: skip


def test_textbook_airplane_in_time(reproduce):
    craft = general_aviation()
    slow = trace(craft, level(craft, _7=2.0), 120.0, step=0.02)
    speed = np.linalg.norm(slow.states[:, 0, 7:10], axis=1)
    late = slow.times > 8.0
    period, growth = ring(slow.times[late], (speed - np.median(speed))[late])
    reproduce("GA airplane flown in time: phugoid period, s", computed=period, printed=29.5,
              rel=0.02, source="[NELSON] ch. 4")  # fmt: skip
    reproduce("GA airplane flown in time: phugoid growth, 1/s", computed=growth, printed=-0.0171,
              rel=0.06, source="[NELSON] ch. 4; read off a trace")  # fmt: skip


def test_textbook_airplane_small_motions(reproduce):
    craft = general_aviation()
    state = level(craft)
    steady = steady_flight(craft, 176.0 * FOOT, throttle=1.0)
    steady = replace(steady, state=state, sticks=np.array([[1.0, 0.0, 0.0, 0.0]]))
    roots = np.linalg.eigvals(small_motion_matrix(craft, steady))
    for name, printed, rel in (
        ("short period", complex(-2.51, 2.59), 0.01),
        ("phugoid", complex(-0.0171, 0.213), 0.01),
    ):
        near = roots[np.argmin(np.abs(roots - printed))]
        for part in ("real", "imag"):
            reproduce(
                f"GA airplane, same equations as the throws: {name}, {part}",
                computed=getattr(near, part), printed=getattr(printed, part), rel=rel,
                source="[NELSON] ch. 4",
            )  # fmt: skip


def test_transport_sideways(reproduce):
    """Etkin and Reid's jet transport: sideways derivatives and product of inertia, 40 000 ft."""
    speed = 235.9
    craft = derivative_craft(
        mass=2.83176e6 / GRAVITY,
        inertia=(0.247e8, 0.449e8, 0.673e8),
        product=-0.212e7,
        area=511.0,
        span=59.64,
        chord=8.324,
        density=0.3045,
        speed=speed,
        lift=2.83176e6 / (0.5 * 0.3045 * speed**2 * 511.0),
        drag=0.043,
        long={"CLa": 4.877, "CDa": 0.43, "Cma": -1.023, "CLq": 5.9, "Cmq": -23.92, "Cmadot": -6.3},
        lat={"Cyb": -0.8771 + 0.043, "Clb": -0.2797, "Clp": -0.3295, "Clr": 0.3040,
             "Cnb": 0.1946, "Cnp": -0.04073, "Cnr": -0.2737},
    )  # fmt: skip
    state = start_state(0, speed=speed, height=1000.0, throttle=1.0)
    sticks = np.array([[1.0, 0.0, 0.0, 0.0]])
    steady = replace(steady_flight(craft, speed, throttle=1.0), state=state, sticks=sticks)
    roots = np.linalg.eigvals(small_motion_matrix(craft, steady))
    for name, printed, parts in (
        ("Dutch roll", complex(-0.033011, 0.94655), ("real", "imag")),
        ("roll", complex(-0.56248, 0.0), ("real",)),
        ("spiral", complex(-0.0072973, 0.0), ("real",)),
    ):
        near = roots[np.argmin(np.abs(roots - printed))]
        for part in parts:
            reproduce(
                f"jet transport, same equations as the throws: {name}, {part}",
                computed=getattr(near, part), printed=getattr(printed, part), rel=0.01,
                source="[ETKIN-REID] table 6.7",
            )  # fmt: skip


def test_phugoid_near_lanchester(reproduce):
    """Hardly any drag, and a nose so heavy that the angle of attack stays: Lanchester's plane."""
    craft = general_aviation(Cma=-6.0, drag=0.002, CDa=0.004)
    flown = trace(craft, level(craft, _7=1.0), 90.0, step=0.02)
    speed = np.linalg.norm(flown.states[:, 0, 7:10], axis=1)
    late = flown.times > 5.0
    period, _ = ring(flown.times[late], (speed - speed[late].mean())[late])
    reproduce("phugoid of a stiff plane of little drag, period, s", computed=period,
              printed=lanchester_period(176.0 * FOOT), rel=0.10,
              source="Lanchester 1908")  # fmt: skip


@pytest.mark.parametrize(("good", "count"), [(4, 20), (0, 50), (997, 1000)])
def test_wilson_interval(reproduce, good, count):
    theirs = binomtest(good, count).proportion_ci(0.95, method="wilson")
    low, high = share_interval(good, count, deviations=1.959964)
    for name, ours, printed in (("low", low, theirs.low), ("high", high, theirs.high)):
        reproduce(f"Wilson interval, {good} of {count}: {name}", computed=ours, printed=printed,
                  near=1e-6, source="scipy.stats, Wilson 1927")  # fmt: skip


def test_low_altitude_turbulence(reproduce):
    """At 1000 ft the form is isotropic: L = 1000 ft and equal strengths; at 20 ft as below."""
    top = turbulence_at(1000.0 * FOOT, 10.0)
    reproduce("turbulence at 1000 ft: length along, ft", computed=top.length_along / FOOT,
              printed=1000.0, rel=0.001, source="[MIL-F-8785C] 3.7.3.4")  # fmt: skip
    reproduce("turbulence at 1000 ft: along over up", computed=top.along / top.up, printed=1.0,
              rel=0.001, source="[MIL-F-8785C] 3.7.3.4")  # fmt: skip
    low = turbulence_at(20.0 * FOOT, 10.0)
    reproduce("turbulence at 20 ft: up over wind", computed=low.up / 10.0, printed=0.1, rel=1e-6,
              source="[MIL-F-8785C] 3.7.3.4")  # fmt: skip
    reproduce("log wind, 10 m over 2 m, z0 3 cm", computed=float(wind_at(10.0, 1.0)),
              printed=math.log(10 / 0.03) / math.log(2 / 0.03), rel=1e-6,
              source="logarithmic law")  # fmt: skip


def test_gusts_have_the_strength_of_the_form(reproduce):
    blow = windy(4.0, 3000, 5, airspeed=9.0, span=1.2)
    gust = np.stack([blow.gusts(t)[:, :3] for t in (0.0, 3.0, 7.0)]).reshape(-1, 3)
    form = turbulence_at(3.048, float(wind_at(6.096, 4.0)))
    for k, name, strength in ((0, "along", form.along), (2, "up", form.up)):
        reproduce(
            f"gusts blown: strength {name}, m/s", computed=float(gust[:, k].std()),
            printed=strength, rel=0.08,
            source="[MIL-F-8785C]; waves of 1.5 m to 2 km only",
        )  # fmt: skip


def test_rotation_keeps_its_length(stone):
    state = start_state(stone.strip_count, speed=1.0, height=100.0)
    state[0, RATES] = (9.0, -7.0, 5.0)
    flown = trace(stone, state, 2.0)
    assert np.allclose(np.linalg.norm(flown.states[:, 0, QUATERNION], axis=1), 1.0, atol=1e-12)
    assert np.isfinite(attitude_of(flown.states[-1]).bank).all()
