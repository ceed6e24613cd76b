"""Trim, stall and the room the CG has."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.flaps import worked_turn
from foamwright.aero.ground import CLEARANCE, images_at, lowest_point
from foamwright.aero.response import State
from foamwright.aero.setting import Setting, coefficients_in
from foamwright.core.errors import ModelError

type Array = NDArray[np.float64]

FLARE_SHARE = 0.8  # of the largest lift held in the flare: touch-down at 1.12 Vs; common practice
MARGIN_AFT = 0.05  # least static margin, the rear end of the CG range; common practice
LEAST_LIFT = 0.2  # below it full up elevator holds no useful flight; the notes say so
STEP = 0.01  # rad, for slopes


@dataclass(frozen=True, slots=True)
class WingStall:
    """Where and when the wing stalls.

    Attributes:
        alpha: Of the fuselage line. [rad]
        lift: Wing's lift coefficient there. [-]
        place: Fraction of the half span that stalls first. [-]
        words: One sentence.
        extrapolated: Whether the sections' Reynolds numbers leave the validated range.
    """

    alpha: float
    lift: float
    place: float
    words: str
    extrapolated: bool


def strip_lift(setting: Setting, alpha: float) -> tuple[Array, Array]:
    """Section lift coefficients along the right wing, at no incidence and per radian.

    Args:
        setting: The plane.
        alpha: At which they are wanted. [rad]

    Returns:
        Lift coefficients at alpha, and their slopes, wing strips root outwards. [-], [1/rad]

    Source:
        cl = 2 G/(V c) from the lattice.

    Example:
        >>> strip_lift(setting, 0.1)[0].max()  # doctest: +SKIP
        0.9
    """
    solution = setting.response.solution
    strips = solution.mesh.strips
    wing = strips.surface == 0
    gain = 2.0 * setting.response.gains[0] / strips.chord[wing]
    (twist,), (camber,) = solution.select("twist", 0), solution.select("camber", 0)
    (slope,) = solution.select("alpha", 0)
    rows = solution.circulation[:, wing]
    base = (rows[twist] + setting.camber * rows[camber]) * gain
    per = rows[slope] * gain
    return base + alpha * per, per


def strip_limits(setting: Setting, speed: float) -> Array:
    """Largest lift coefficient of each wing strip's section.

    Args:
        setting: The plane.
        speed: For the strips' Reynolds numbers. [m/s]

    Returns:
        One a wing strip, root outwards. [-]

    Source:
        The section tables.

    Example:
        >>> strip_limits(setting, 7.0).max()  # doctest: +SKIP
        1.2
    """
    strips = setting.response.solution.mesh.strips
    wing = strips.surface == 0
    chord, panel = strips.chord[wing], strips.panel[wing]
    limits = np.zeros_like(chord)
    for number, table in enumerate(setting.tables):
        mine = panel == number
        logs = np.log(setting.air.density * speed * chord[mine] / setting.air.viscosity)
        limits[mine] = np.interp(logs, table.log_reynolds, table.lift_max)
    return limits


def wing_stall(setting: Setting, speed: float) -> WingStall:
    """Angle at which the first strip of the wing reaches its section's largest lift.

    Args:
        setting: The plane.
        speed: For the strips' Reynolds numbers. [m/s]

    Returns:
        The stall.

    Valid:
        First stall; the plane's peak may lie a few per cent higher once the stall has spread.

    Source:
        Critical-section method, Anderson, NACA TR 572.

    Example:
        >>> wing_stall(setting, 7.0).place  # doctest: +SKIP
        0.2
    """
    strips = setting.response.solution.mesh.strips
    wing = strips.surface == 0
    base, per = strip_lift(setting, 0.0)
    chord, place = strips.chord[wing], strips.place[wing]
    limits = strip_limits(setting, speed)
    reach = (limits - base) / per
    # The last strips unload over a width that the section model does not see.
    inner = place < 0.97
    first = int(np.argmin(np.where(inner, reach, np.inf)))
    alpha = float(reach[first])
    loads = base + alpha * per
    width = strips.width[wing] * np.abs(strips.across[wing, 1])
    lift = 2.0 * float((loads * chord * width).sum()) / setting.wing.area
    reynolds = setting.reynolds(float(chord.min()), speed)
    return WingStall(
        alpha, lift, float(place[first]), _words(loads / limits, place, inner), not reynolds >= 40e3
    )


def _words(share: Array, place: Array, inner: NDArray[np.bool_]) -> str:
    tip = float(np.interp(0.8, place, share))
    root = float(share[place < 0.3].max()) if (place < 0.3).any() else float(share[0])
    start = float(place[int(np.argmax(np.where(inner, share, 0.0)))])
    at = f"starts at {100.0 * start:.0f} % of the half span"
    if start < 0.35:
        kind = "root first: the ailerons keep their bite"
    elif start < 0.6:
        kind = "middle first"
    else:
        kind = "tip first: it may drop a wing"
    return (
        f"{kind}; {at}, where the root stands at {100.0 * root:.0f} % and 80 % span at "
        f"{100.0 * tip:.0f} % of their sections' largest lift."
    )


@dataclass(frozen=True, slots=True)
class Slopes:
    """Linear behaviour about one angle, elevator neutral.

    Attributes:
        lift: Lift coefficient there. [-]
        pitch: Pitching moment coefficient there. [-]
        lift_alpha: [1/rad]
        pitch_alpha: [1/rad]
        lift_elevator: 0 without elevator. [1/rad]
        pitch_elevator: 0 without elevator. [1/rad]
        alpha: [rad]
    """

    lift: float
    pitch: float
    lift_alpha: float
    pitch_alpha: float
    lift_elevator: float
    pitch_elevator: float
    alpha: float


def slopes_at(setting: Setting, alpha: float) -> Slopes:
    """Lift and pitch with their slopes at an angle.

    Args:
        setting: The plane.
        alpha: Of the fuselage line. [rad]

    Returns:
        Values and slopes.

    Source:
        Central differences of `coefficients`.

    Example:
        >>> slopes_at(setting, 0.05).lift_alpha  # doctest: +SKIP
        4.6
    """
    here, up, down, bent = coefficients_in(
        setting,
        [
            State(alpha),
            State(alpha + STEP),
            State(alpha - STEP),
            State(alpha, controls={"elevator": STEP}),
        ],
    )
    return Slopes(
        here.lift,
        here.pitch,
        (up.lift - down.lift) / (2.0 * STEP),
        (up.pitch - down.pitch) / (2.0 * STEP),
        (bent.lift - here.lift) / STEP,
        (bent.pitch - here.pitch) / STEP,
        alpha,
    )


def trim_for(slopes: Slopes, lift: float) -> tuple[float, float]:
    """Angle and elevator for a lift coefficient with no moment.

    Args:
        slopes: Linear behaviour.
        lift: Wanted. [-]

    Returns:
        Alpha and elevator, trailing edge down positive. [rad], [rad]

    Raises:
        ModelError: The elevator does nothing.

    Source:
        Two linear equations, lift and moment.

    Example:
        >>> a, e = trim_for(Slopes(0.0, 0.0, 5.0, -0.5, 0.4, -1.0, 0.0), 0.5)
        >>> round(a, 3), round(e, 3)
        (0.104, -0.052)
    """
    s = slopes
    determinant = s.lift_alpha * s.pitch_elevator - s.pitch_alpha * s.lift_elevator
    if abs(determinant) < 1e-9:
        raise ModelError("The elevator has no effect: the plane cannot be trimmed.")
    want = lift - s.lift
    alpha = (want * s.pitch_elevator + s.pitch * s.lift_elevator) / determinant
    elevator = (-s.pitch * s.lift_alpha - want * s.pitch_alpha) / determinant
    return s.alpha + alpha, elevator


@dataclass(frozen=True, slots=True)
class StallTrim:
    """Largest trimmed lift and the front end of the CG range.

    Attributes:
        lift: Largest trimmed lift coefficient. [-]
        elevator: That holds it. [rad]
        limited: Whether the elevator's travel ends before the wing stalls.
        cg_forward: Foremost CG for stall and flare. [m]
        tail_lift: Lift coefficient of the stab at full up elevator in the flare. [-]
    """

    lift: float
    elevator: float
    limited: bool
    cg_forward: float
    tail_lift: float


def stall_trim(setting: Setting, stall: WingStall) -> StallTrim:
    """Trim at the stall, and how far forward the CG may go.

    Args:
        setting: The plane.
        stall: The wing's stall.

    Returns:
        Trimmed lift and CG limit.

    Source:
        Moment balance; flare a twentieth of the span above the ground, ground.py.

    Example:
        >>> stall_trim(setting, stall).lift  # doctest: +SKIP
        1.1
    """
    s = slopes_at(setting, stall.alpha)
    found = setting.control("elevator")
    travel = worked_turn(found[1].up) if found else 0.0
    need = -s.pitch / s.pitch_elevator if s.pitch_elevator else 0.0
    limited = need < -travel - 1e-9 and s.pitch_alpha < 0.0
    if limited:
        # Full up elevator balances at a smaller angle than the stall's.
        alpha = stall.alpha - (s.pitch - s.pitch_elevator * travel) / s.pitch_alpha
        lift = s.lift + s.lift_alpha * (alpha - stall.alpha) - s.lift_elevator * travel
        need = -travel
        lift = max(lift, LEAST_LIFT)
    else:
        lift = s.lift + s.lift_elevator * need
    x, chord = setting.response.cg[0], setting.wing.mean_chord
    full = s.pitch - s.pitch_elevator * travel
    at_stall = x - chord * full / (s.lift - s.lift_elevator * travel)
    at_flare, tail = _flare(setting, stall, s, travel)
    return StallTrim(lift, need, limited, max(at_stall, at_flare), tail)


def _flare(setting: Setting, stall: WingStall, s: Slopes, travel: float) -> tuple[float, float]:
    """Foremost CG for the flare with full up elevator, and the stab's lift coefficient there.

    The ground's images leave the stab less downwash, give it and its elevator more lift, and let
    the wing make its lift at a smaller angle.
    """
    wing, stab, x = setting.wing, setting.airframe.stab, setting.response.cg[0]
    ground = lowest_point(setting.airframe) - CLEARANCE * wing.span
    images = images_at(setting.response.solution, ground)
    incidence = FLARE_SHARE * (stall.alpha + setting.camber + _mean_twist(setting))
    wash = setting.downwash * incidence
    lost = (1.0 - images.downwash_left) * wash
    eased = images.upwash * float(setting.response.gains[0]) * incidence
    free = stall.alpha - (1.0 - FLARE_SHARE) * s.lift / s.lift_alpha
    angle = free - eased + stab.panels[0].root_twist - wash + lost
    share = stab.area / wing.area
    tail = _tail_slope(setting) * angle - s.lift_elevator * travel / share
    more = (images.tail_ratio - 1.0) * tail * share
    pitch = s.pitch - s.pitch_elevator * travel + s.pitch_alpha * (free - stall.alpha)
    pitch += _tail_pitch_slope(setting) * (lost - eased)
    pitch += more * (x - stab.quarter_chord_x) / wing.mean_chord
    lift = FLARE_SHARE * s.lift - s.lift_elevator * travel + more
    return x - wing.mean_chord * pitch / lift, images.tail_ratio * tail


def _mean_twist(setting: Setting) -> float:
    strips = setting.response.solution.mesh.strips
    wing = strips.surface == 0
    area = strips.chord[wing] * strips.width[wing]
    return float((strips.twist[wing] * area).sum() / area.sum())


def _tail_slope(setting: Setting) -> float:
    """Lift slope of the stab to its own incidence, on its own area."""
    (own,) = setting.response.solution.select("alpha", 1)
    return 2.0 * float(setting.response.forces[own, 0, 1, 2]) / setting.airframe.stab.area


def _tail_pitch_slope(setting: Setting) -> float:
    """Pitching moment per incidence of the stab alone, about the CG."""
    (own,) = setting.response.solution.select("alpha", 1)
    force = 2.0 * setting.response.forces[own, 0, 1]
    x = setting.response.cg[0]
    wing = setting.wing
    return float(force[4] + x * force[2]) / (wing.area * wing.mean_chord)


def hands_off(slopes: Slopes, lift_max: float) -> float | None:
    """Lift coefficient at which the plane trims with the elevator neutral.

    Args:
        slopes: Linear behaviour.
        lift_max: Largest trimmed lift. [-]

    Returns:
        Lift coefficient; None when it is unstable or the trim lies outside 0 to lift_max. [-]

    Source:
        Moment balance.

    Example:
        >>> hands_off(Slopes(0.0, 0.05, 5.0, -0.5, 0.4, -1.0, 0.0), 1.2)
        0.5
    """
    if slopes.pitch_alpha >= 0.0:
        return None
    lift = slopes.lift - slopes.pitch / slopes.pitch_alpha * slopes.lift_alpha
    return lift if 0.0 < lift < lift_max and math.isfinite(lift) else None
