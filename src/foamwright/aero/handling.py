"""Roll rate, adverse yaw, hinge moments and all derivatives."""

import math
from dataclasses import dataclass, replace

from foamwright.aero.bodies import wing_height_effect
from foamwright.aero.flaps import worked_turn
from foamwright.aero.model import Derivatives
from foamwright.aero.response import BASE, Forces, State
from foamwright.aero.setting import TAIL_WIND, Setting, coefficients_in
from foamwright.aero.thin import hinge_moment_slopes

PRACTICE = (
    0.6  # hinge moment of small surfaces over thin-aerofoil theory; common practice, 0.5 to 0.7
)
HINGE_RATIO = 2.5  # speed over stall speed at which hinge moments are taken, house definition
YAW_SPEED_RATIO = 1.2  # over stall speed, for adverse yaw
STEP = 0.01  # rad


@dataclass(frozen=True, slots=True)
class Trimmed:
    """The trimmed state about which derivatives are taken.

    Attributes:
        alpha: [rad]
        elevator: [rad]
        lift: [-]
        drag_slope: d(CD)/d(CL). [-]
    """

    alpha: float
    elevator: float
    lift: float
    drag_slope: float


def _state(trim: Trimmed, **more: float) -> State:
    controls = {"elevator": trim.elevator}
    names = ("aileron", "rudder", "elevator")
    for name in names:
        if name in more:
            controls[name] = controls.get(name, 0.0) + more.pop(name)
    return State(
        alpha=trim.alpha + more.get("alpha", 0.0),
        beta=more.get("beta", 0.0),
        roll=more.get("roll", 0.0),
        pitch=more.get("pitch", 0.0),
        yaw=more.get("yaw", 0.0),
        controls=controls,
    )


def _turned(trim: Trimmed, roll: float, yaw: float) -> dict[str, float]:
    """Rates about the wind axes as rates about the fuselage line."""
    c, s = math.cos(trim.alpha), math.sin(trim.alpha)
    return {"roll": roll * c - yaw * s, "yaw": roll * s + yaw * c}


def derivatives_of(setting: Setting, trim: Trimmed) -> Derivatives:
    """Every derivative about the CG at a trimmed state, wind axes.

    Args:
        setting: The plane.
        trim: The state.

    Returns:
        The derivatives.

    Valid:
        Attached flow, power off. Positive aileron is the right one trailing edge down (rolls left),
        positive rudder trailing edge left (yaws left).

    Source:
        Differences of `coefficients`; downwash lag for the alpha rate [ETKIN]; wing height DATCOM.

    Example:
        >>> derivatives_of(setting, trim).roll_roll_rate < 0.0  # doctest: +SKIP
        True
    """
    span, chord = setting.wing.span, setting.wing.mean_chord
    causes = (
        {},
        {"alpha": STEP},
        {"beta": STEP},
        {"elevator": STEP},
        {"aileron": STEP},
        {"rudder": STEP},
        {"pitch": 2.0 * STEP / chord},
        _turned(trim, 2.0 * STEP / span, 0.0),
        _turned(trim, 0.0, 2.0 * STEP / span),
    )
    base, *others = coefficients_in(setting, [_state(trim, **cause) for cause in causes])
    alpha, beta, elevator, aileron, rudder, pitch, roll, yaw = (
        Forces(*((getattr(other, n) - getattr(base, n)) / STEP for n in Forces.__slots__))
        for other in others
    )
    return Derivatives(
        lift_alpha=alpha.lift,
        lift_pitch_rate=pitch.lift,
        lift_elevator=elevator.lift,
        drag_alpha=trim.drag_slope * alpha.lift,
        pitch_alpha=alpha.pitch,
        pitch_pitch_rate=pitch.pitch,
        pitch_alpha_rate=_lag(setting),
        pitch_elevator=elevator.pitch,
        side_beta=beta.side,
        side_roll_rate=roll.side,
        side_yaw_rate=yaw.side,
        side_rudder=rudder.side,
        roll_beta=beta.roll + wing_height_effect(setting.airframe),
        roll_roll_rate=roll.roll,
        roll_yaw_rate=yaw.roll,
        roll_aileron=aileron.roll,
        roll_rudder=rudder.roll,
        yaw_beta=beta.yaw,
        yaw_roll_rate=roll.yaw,
        yaw_yaw_rate=yaw.yaw,
        yaw_aileron=aileron.yaw,
        yaw_rudder=rudder.yaw,
    )


def in_body_axes(derivatives: Derivatives, alpha: float) -> Derivatives:
    """Roll, yaw and side force derivatives about the fuselage line instead of the wind.

    Args:
        derivatives: Wind axes. [1/rad, -]
        alpha: Of the fuselage line. [rad]

    Returns:
        The same with the lateral ones turned; lift, drag and pitch stay as they were. [1/rad, -]

    Source:
        Turn of rates and moments about the y axis, any stability text.

    Example:
        >>> in_body_axes(derivatives, 0.0) == derivatives  # doctest: +SKIP
        True
    """
    d, c, s = derivatives, math.cos(alpha), math.sin(alpha)

    def turned(roll: float, yaw: float) -> tuple[float, float]:
        return roll * c - yaw * s, yaw * c + roll * s

    by_roll = turned(d.roll_roll_rate, d.yaw_roll_rate)
    by_yaw = turned(d.roll_yaw_rate, d.yaw_yaw_rate)
    (beta, beta_yaw), (aileron, aileron_yaw), (rudder, rudder_yaw) = (
        turned(d.roll_beta, d.yaw_beta),
        turned(d.roll_aileron, d.yaw_aileron),
        turned(d.roll_rudder, d.yaw_rudder),
    )
    return replace(
        d,
        side_roll_rate=d.side_roll_rate * c - d.side_yaw_rate * s,
        side_yaw_rate=d.side_yaw_rate * c + d.side_roll_rate * s,
        roll_beta=beta,
        yaw_beta=beta_yaw,
        roll_aileron=aileron,
        yaw_aileron=aileron_yaw,
        roll_rudder=rudder,
        yaw_rudder=rudder_yaw,
        roll_roll_rate=by_roll[0] * c - by_yaw[0] * s,
        roll_yaw_rate=by_yaw[0] * c + by_roll[0] * s,
        yaw_roll_rate=by_roll[1] * c - by_yaw[1] * s,
        yaw_yaw_rate=by_yaw[1] * c + by_roll[1] * s,
    )


def _lag(setting: Setting) -> float:
    """Pitching moment per alpha rate: the tail's pitch damping times the downwash slope."""
    response = setting.response
    (own,) = response.solution.select("pitch", 1)
    (incidence,) = response.solution.select("alpha", 1)
    x, wing = response.cg[0], setting.wing
    force = 2.0 * (response.forces[own, BASE, 1] - x * response.forces[incidence, BASE, 1])
    moment = float(force[4] + x * force[2])
    scale = wing.area * wing.mean_chord * (0.5 * wing.mean_chord)
    return setting.downwash * moment / scale


def steady_roll(derivatives: Derivatives, setting: Setting, speed: float) -> float:
    """Steady roll rate with full aileron.

    p = 2 V/b Cl_aileron d / -Cl_p, d the mean of up and down travel, less beyond 12 degrees.

    Args:
        derivatives: Of the plane.
        setting: The plane.
        speed: [m/s]

    Returns:
        Roll rate; 0 without ailerons. [rad/s]

    Source:
        One-degree-of-freedom roll, any stability text.

    Example:
        >>> steady_roll(derivatives, setting, 9.0)  # doctest: +SKIP
        2.1
    """
    found = setting.control("aileron")
    if found is None:
        return 0.0
    travel = 0.5 * (worked_turn(found[1].up) + worked_turn(found[1].down))
    rate = abs(derivatives.roll_aileron) * travel / max(-derivatives.roll_roll_rate, 1e-6)
    return 2.0 * speed / setting.wing.span * rate


def adverse_yaw(setting: Setting, lift: float, trimmed: tuple[float, float]) -> float:
    """Yawing over rolling moment of the ailerons.

    Args:
        setting: The plane.
        lift: Lift coefficient at which it is asked; kept for the note. [-]
        trimmed: Alpha and elevator there. [rad]

    Returns:
        Negative when the nose swings away from the turn; 0 without ailerons. [-]

    Valid:
        Induced part only; the profile drag of the lowered aileron adds to it.

    Source:
        Trefftz plane, unequal downwash left and right.

    Example:
        >>> adverse_yaw(setting, 0.8, (0.1, 0.0))  # doctest: +SKIP
        -0.1
    """
    if setting.control("aileron") is None or lift <= 0.0:
        return 0.0
    alpha, elevator = trimmed
    # Both ways, for a CG off the middle rolls and turns the plane with the ailerons neutral too.
    left, right = coefficients_in(
        setting,
        [State(alpha, controls={"elevator": elevator, "aileron": turn}) for turn in (STEP, -STEP)],
    )
    roll = left.roll - right.roll
    return (left.yaw - right.yaw) / roll if abs(roll) > 1e-9 else 0.0


def hinge_moments(setting: Setting, stall_speed: float) -> dict[str, float]:
    """Largest hinge moment that one servo must hold at 2.5 times stall speed.

    Args:
        setting: The plane.
        stall_speed: [m/s]

    Returns:
        Control name -> moment; one servo an aileron, one servo each for elevator and rudder. [N m]

    Valid:
        Plain unbalanced flaps; theory times 0.6, +-30 %.

    Source:
        Thin-aerofoil theory, thin.py; factor common practice.

    Example:
        >>> hinge_moments(setting, 6.5)["elevator"]  # doctest: +SKIP
        0.03
    """
    pressure = 0.5 * setting.air.density * (HINGE_RATIO * stall_speed) ** 2
    result: dict[str, float] = {}
    for name, share, wind in (
        ("elevator", 1.0, TAIL_WIND),
        ("rudder", 1.0, TAIL_WIND),
        ("aileron", 0.5, 1.0),
    ):
        found = setting.control(name)
        if found is None:
            continue
        control = found[1]
        by_alpha, by_deflection = hinge_moment_slopes(control.chord_fraction)
        travel = max(control.up, control.down)
        # 3 degrees of incidence against the deflection's sense: a gust, or the pull-out itself.
        coefficient = PRACTICE * (abs(by_deflection) * travel + abs(by_alpha) * math.radians(3.0))
        result[name] = share * wind * pressure * control.area * control.chord * coefficient
    return result
