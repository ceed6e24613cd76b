"""Everything the air says about one plane at one mass and CG."""

import math
from dataclasses import dataclass

import numpy as np

from foamwright.aero.aileron_stall import AileronStall, aileron_stall
from foamwright.aero.doubts import derivative_spread
from foamwright.aero.drag import PlanePolar, plane_polar
from foamwright.aero.flaps import worked_turn
from foamwright.aero.handling import (
    YAW_SPEED_RATIO,
    Trimmed,
    adverse_yaw,
    derivatives_of,
    hinge_moments,
    steady_roll,
)
from foamwright.aero.lattice import LatticeSolution
from foamwright.aero.model import AeroResult, Derivatives
from foamwright.aero.response import Forces, State, own_share, share_of
from foamwright.aero.second import tail_volume
from foamwright.aero.sections import SectionPolars
from foamwright.aero.setting import TRIM_RATIO, Setting, setting_of
from foamwright.aero.trim import (
    LEAST_LIFT,
    MARGIN_AFT,
    STEP,
    Slopes,
    StallTrim,
    WingStall,
    hands_off,
    slopes_at,
    stall_trim,
    strip_limits,
    trim_for,
    wing_stall,
)
from foamwright.core.air import GRAVITY, Air
from foamwright.core.errors import ModelError
from foamwright.shape.model import Airframe

LIFT_MAX_SPREAD = (
    0.07  # one standard deviation of CLmax, relative: sections +-0.08, strip method +-3 %
)
DRAG_SPREAD = 0.20  # of the drag at zero lift: outside parts and finish; assumed
NEUTRAL_POINT_SPREAD = (
    0.03  # of the mean chord: downwash methods differ by that much (0.36 to 0.45 at AR 6)
)
SLOPE_SPREAD = 0.05  # of the lift slope: section slope at low Reynolds number


def analyse(
    airframe: Airframe,
    lattice: LatticeSolution,
    polars: SectionPolars,
    *,
    air: Air,
    mass: float,
    cg: tuple[float, float, float],
) -> AeroResult:
    """Lift, stall, drag, trim, stability and control of the whole plane, power off.

    Args:
        airframe: The shape.
        lattice: Its unit solutions.
        polars: Its section tables.
        air: The air.
        mass: All-up. [kg]
        cg: Centre of gravity. [m]

    Returns:
        The whole result with its uncertainty and notes.

    Raises:
        ModelError: No mass, or an elevator that does nothing.

    Valid:
        Wing Reynolds number 40 000 to 400 000, conventional and V-tail planes, propeller not
        turning.

    Source:
        The modules of this room; docs/physics/aero.md.

    Example:
        >>> analyse(frame, lattice, polars, air=air, mass=1.0, cg=cg).stall_speed  # doctest: +SKIP
        6.4
    """
    setting, stall, held = _stalled(airframe, lattice, polars, air=air, mass=mass, cg=cg)
    stall_speed = setting.speed_at(held.lift)
    trim_lift = held.lift / TRIM_RATIO**2
    guess = slopes_at(setting, stall.alpha - (held.lift - trim_lift) / 4.5)
    slopes = slopes_at(setting, trim_for(guess, trim_lift)[0])
    polar = plane_polar(setting, slopes, held.lift)
    return _collect(setting, stall, held, slopes=slopes, polar=polar, stall_speed=stall_speed)


def _stalled(
    airframe: Airframe,
    lattice: LatticeSolution,
    polars: SectionPolars,
    *,
    air: Air,
    mass: float,
    cg: tuple[float, float, float],
) -> tuple[Setting, WingStall, StallTrim]:
    """The plane with its sections at the Reynolds numbers of its own stall, and that stall."""
    weight = mass * GRAVITY
    first = setting_of(airframe, lattice, polars, air=air, weight=weight, cg=cg)
    rough = wing_stall(first, first.speed_at(1.0))
    setting = setting_of(
        airframe, lattice, polars, air=air, weight=weight, cg=cg, lift_max=rough.lift
    )
    stall = wing_stall(setting, setting.speed_at(rough.lift))
    return setting, stall, stall_trim(setting, stall)


def derivatives_at(
    airframe: Airframe,
    lattice: LatticeSolution,
    polars: SectionPolars,
    *,
    air: Air,
    mass: float,
    cg: tuple[float, float, float],
    speed: float,
) -> tuple[Derivatives, float]:
    """Derivatives in level flight at any speed, power off, and the angle of attack there.

    Args:
        airframe: The shape.
        lattice: Its unit solutions.
        polars: Its section tables.
        air: The air.
        mass: All-up. [kg]
        cg: Centre of gravity. [m]
        speed: True airspeed. [m/s]

    Returns:
        Derivatives about the CG, wind axes (`in_body_axes` turns them) [1/rad, -], and the angle of
        the fuselage line [rad].

    Raises:
        ModelError: No mass, an elevator that does nothing, or slower than the stall.

    Valid:
        As `analyse`; the same doubts (`derivative_spread`).

    Source:
        As `derivatives_of`.

    Example:
        >>> derivatives_at(frame, lattice, polars, air=air, mass=1.0, cg=cg,
        ...                speed=12.0)[0].roll_roll_rate  # doctest: +SKIP
        -0.4
    """
    setting, stall, held = _stalled(airframe, lattice, polars, air=air, mass=mass, cg=cg)
    slowest = setting.speed_at(held.lift)
    if not speed > slowest:
        raise ModelError(f"The plane stalls at {slowest:.2f} m/s and cannot fly at {speed} m/s.")
    lift = held.lift * (slowest / speed) ** 2
    guess = slopes_at(setting, stall.alpha - (held.lift - lift) / 4.5)
    slopes = slopes_at(setting, trim_for(guess, lift)[0])
    polar = plane_polar(setting, slopes, held.lift)
    alpha, elevator = trim_for(slopes, lift)
    drag_slope = 2.0 * polar.factor * (lift - polar.bucket)
    return derivatives_of(setting, Trimmed(alpha, elevator, lift, drag_slope)), alpha


def _collect(
    setting: Setting,
    stall: WingStall,
    held: StallTrim,
    *,
    slopes: Slopes,
    polar: PlanePolar,
    stall_speed: float,
) -> AeroResult:
    wing, cg_x = setting.wing, setting.response.cg[0]
    trim_lift = held.lift / TRIM_RATIO**2
    alpha, elevator = trim_for(slopes, trim_lift)
    margin = -slopes.pitch_alpha / slopes.lift_alpha
    neutral = cg_x + margin * wing.mean_chord
    trimmed = Trimmed(alpha, elevator, trim_lift, 2.0 * polar.factor * (trim_lift - polar.bucket))
    derivatives = derivatives_of(setting, trimmed)
    slow_lift = held.lift / YAW_SPEED_RATIO**2
    best = min(math.sqrt(polar.bucket**2 + polar.zero / polar.factor), 0.95 * held.lift)
    best_drag = polar.zero + polar.factor * (best - polar.bucket) ** 2
    horizontal, vertical = tail_volumes(setting)
    trim_speed = TRIM_RATIO * stall_speed
    shares = _shares(setting, alpha, elevator)
    lowered = _lowered(setting, stall, stall_speed)
    return AeroResult(
        wing_area=wing.area,
        span=wing.span,
        mean_chord=wing.mean_chord,
        mean_chord_x=wing.mean_chord_x,
        neutral_point_x=neutral,
        static_margin=margin,
        lift_slope=slopes.lift_alpha,
        zero_lift_angle=slopes.alpha - slopes.lift / slopes.lift_alpha,
        lift_max=held.lift,
        lift_max_untrimmed=stall.lift,
        stall_speed=stall_speed,
        stall_start=stall.place,
        stall_words=stall.words,
        drag_items=polar.items,
        drag_zero=polar.zero,
        drag_lift_factor=polar.factor,
        lift_at_drag_min=polar.bucket,
        max_lift_drag=best / best_drag,
        best_glide_speed=setting.speed_at(best),
        downwash_slope=setting.downwash,
        tail_volume_horizontal=horizontal,
        tail_volume_vertical=vertical,
        trim_elevator=elevator,
        trim_speed=trim_speed,
        hands_off_lift=hands_off(slopes, held.lift),
        cg_forward=held.cg_forward,
        cg_aft=neutral - MARGIN_AFT * wing.mean_chord,
        roll_rate=steady_roll(derivatives, setting, trim_speed),
        adverse_yaw=adverse_yaw(setting, slow_lift, trim_for(slopes, slow_lift)),
        hinge_moments=hinge_moments(setting, stall_speed),
        derivatives=derivatives,
        uncertainty=_uncertainty(setting, held, polar, stall_speed=stall_speed),
        notes=_notes(setting, stall, held, polar),
        trim_alpha=alpha,
        tail_pitch=shares.tail,
        tail_pitch_alpha=shares.tail_alpha,
        fin_yaw_beta=shares.fin_yaw_beta,
        aileron_stall_start=lowered.place if lowered else None,
        aileron_stall_words=lowered.words if lowered else "",
        aileron_drops=lowered.drops if lowered else False,
        tail_own_pitch=shares.tail_own,
        wing_pitch=shares.wing,
        wing_pitch_alpha=shares.wing_alpha,
        derivative_spread=derivative_spread(derivatives, margin_spread=NEUTRAL_POINT_SPREAD),
    )


@dataclass(frozen=True, slots=True)
class _Shares:
    """What wing and tail alone do: what the slipstream multiplies."""

    wing: float
    wing_alpha: float
    tail: float
    tail_alpha: float
    tail_own: float
    fin_yaw_beta: float


def _shares(setting: Setting, alpha: float, elevator: float) -> _Shares:
    """Pitch of wing and stab, their slopes, and yaw per sideslip of what stands upright."""
    worked = {"elevator": elevator * setting.loss("elevator")}
    upright = 1 if setting.airframe.fin is None else 2

    def of(surface: int, state: State) -> Forces:
        return share_of(setting.response, state, setting.camber, surface)

    (wing, more_wing), (here, more) = (
        [of(surface, State(alpha + step, controls=worked)) for step in (0.0, STEP)]
        for surface in (0, 1)
    )
    slip = of(upright, State(alpha, beta=STEP, controls=worked))
    straight = of(upright, State(alpha, controls=worked))
    return _Shares(
        wing=wing.pitch + setting.section_moment,
        wing_alpha=(more_wing.pitch - wing.pitch) / STEP,
        tail=here.pitch,
        tail_alpha=(more.pitch - here.pitch) / STEP,
        tail_own=own_share(setting.response, 1, worked).pitch,
        fin_yaw_beta=(slip.yaw - straight.yaw) / STEP,
    )


def _lowered(setting: Setting, stall: WingStall, speed: float) -> AileronStall | None:
    """Stall with the aileron fully down, at the lift of the straight stall."""
    found = setting.control("aileron")
    if found is None:
        return None
    limits = strip_limits(setting, speed)
    return aileron_stall(setting, stall, limits, deflection=worked_turn(found[1].down))


def tail_volumes(setting: Setting) -> tuple[float, float]:
    """Horizontal and vertical tail volume; a V-tail by its squared sine and cosine.

    Args:
        setting: The plane.

    Returns:
        Both coefficients. [-]

    Source:
        Raymer, definition; arms from quarter chord to quarter chord.

    Example:
        >>> tail_volumes(setting)  # doctest: +SKIP
        (0.45, 0.035)
    """
    wing, stab, fin = setting.wing, setting.airframe.stab, setting.airframe.fin
    rise = setting.response.solution.mesh.strips
    stab_strip = int(np.flatnonzero(rise.surface == 1)[0])
    flat = float(rise.across[stab_strip, 1]) ** 2
    arm = stab.quarter_chord_x - wing.quarter_chord_x
    horizontal = tail_volume(stab.area * flat, arm, wing_area=wing.area, length=wing.mean_chord)
    if fin is None:
        upright, fin_arm = stab.area * (1.0 - flat), arm
    else:
        upright, fin_arm = fin.area, fin.quarter_chord_x - wing.quarter_chord_x
    return horizontal, tail_volume(upright, fin_arm, wing_area=wing.area, length=wing.span)


def _uncertainty(
    setting: Setting, held: StallTrim, polar: PlanePolar, *, stall_speed: float
) -> dict[str, float]:
    chord = setting.wing.mean_chord
    return {
        "neutral_point_x": NEUTRAL_POINT_SPREAD * chord,
        "static_margin": NEUTRAL_POINT_SPREAD,
        "cg_aft": NEUTRAL_POINT_SPREAD * chord,
        "cg_forward": 0.05 * chord,
        "lift_max": LIFT_MAX_SPREAD * held.lift,
        "stall_speed": 0.5 * LIFT_MAX_SPREAD * stall_speed,
        "drag_zero": DRAG_SPREAD * polar.zero,
        "max_lift_drag": 0.6 * DRAG_SPREAD * math.sqrt(0.25 / (polar.zero * polar.factor)),
        "downwash_slope": 0.05,
        "lift_slope": SLOPE_SPREAD * 4.5,
        "trim_elevator": math.radians(2.0),
    }


def _notes(
    setting: Setting, stall: WingStall, held: StallTrim, polar: PlanePolar
) -> tuple[str, ...]:
    notes = [
        "Power off: slipstream, torque and the propeller's own drag are not in these figures.",
        "Neutral point +-3 % of the chord: published downwash methods differ by that much.",
        "Section drag +-20 %, drag of outside parts and finish assumed: zero-lift drag +-20 %.",
        "Hinge moments count one servo an aileron; one servo for both sides carries twice that.",
    ]
    if held.limited:
        notes.append(
            "Full up elevator is reached before the wing stalls: it sets the largest lift."
        )
    if held.lift <= LEAST_LIFT:
        notes.append(
            "So nose-heavy that full up elevator holds no useful flight: speeds and drag are given "
            f"for a lift coefficient of {LEAST_LIFT} and mean nothing; move the CG aft first."
        )
    if abs(held.tail_lift) > 0.75:
        notes.append(
            f"In the flare the stab would need a lift coefficient of {held.tail_lift:.2f}; a flat "
            "plate gives about 0.75, so the forward CG limit is optimistic."
        )
    if polar.extrapolated or stall.extrapolated:
        notes.append(
            "The wing flies outside Re 40 000 to 400 000 somewhere in its range: extrapolated."
        )
    if polar.misfit > 0.08:
        notes.append(
            f"The parabola misses the computed drag by up to {100.0 * polar.misfit:.0f} %."
        )
    return tuple(notes)
