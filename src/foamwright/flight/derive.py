"""From the results of the aerodynamics and power rooms to the inputs of the modes."""

from foamwright.aero.model import AeroResult
from foamwright.balance.model import Balance
from foamwright.core.air import GRAVITY
from foamwright.flight.motion import (
    Condition,
    LateralDerivatives,
    LongitudinalDerivatives,
    turned_inertia,
)


def condition_of(aero: AeroResult, balance: Balance, *, speed: float, density: float) -> Condition:
    """The plane in level flight at one speed.

    Args:
        aero: The plane's aerodynamics. [-]
        balance: The plane's mass properties. [-]
        speed: True airspeed. [m/s]
        density: Air. [kg/m³]

    Returns:
        Condition with the inertia turned to the path.

    Source:
        Definition.

    Example:
        >>> condition_of(aero, balance, speed=9.0, density=1.225)  # doctest: +SKIP
    """
    weight = balance.all_up_mass * GRAVITY
    lift = weight / (0.5 * density * speed**2 * aero.wing_area)
    alpha = aero.zero_lift_angle + lift / aero.lift_slope
    inertia, product = turned_inertia(balance.inertia, balance.inertia_xz, alpha=alpha)
    return Condition(
        mass=balance.all_up_mass,
        speed=speed,
        density=density,
        area=aero.wing_area,
        span=aero.span,
        chord=aero.mean_chord,
        inertia=inertia,
        inertia_xz=product,
    )


def longitudinal_of(
    aero: AeroResult,
    condition: Condition,
    *,
    drag: float,
    thrust_slope: float,
    thrust_arm: float,
    thrust: float,
) -> LongitudinalDerivatives:
    """Longitudinal derivatives in stability axes, propeller running.

    CXu = -2 CD + dT/dV / (rho V S / 2); the thrust's moment changes with speed as
    (dT/dV - 2 T/V) times its arm, for at trim the air's moment balances it.

    Args:
        aero: The plane's aerodynamics. [-]
        condition: The plane in level flight. [-]
        drag: Drag coefficient there. [-]
        thrust_slope: Change of thrust with airspeed at fixed throttle. [N s/m]
        thrust_arm: Nose-up moment of the thrust about the CG over the thrust. [m]
        thrust: Thrust there. [N]

    Returns:
        Derivatives.

    Valid:
        Lift and drag coefficients that do not change with speed by themselves.

    Source:
        [ETKIN-REID] table 5.1, eq. 5.2 and 5.3.

    Example:
        >>> longitudinal_of(aero, condition, drag=0.06, thrust_slope=-0.1,
        ...     thrust_arm=0.0, thrust=0.8)  # doctest: +SKIP
    """
    c, d = condition, aero.derivatives
    flow = 0.5 * c.density * c.speed * c.area
    return LongitudinalDerivatives(
        axial_speed=-2.0 * drag + thrust_slope / flow,
        axial_alpha=c.weight_coefficient - d.drag_alpha,
        normal_speed=0.0,
        normal_alpha=-(d.lift_alpha + drag),
        normal_pitch_rate=-d.lift_pitch_rate,
        normal_alpha_rate=0.0,
        pitch_speed=thrust_arm * (thrust_slope - 2.0 * thrust / c.speed) / (flow * c.chord),
        pitch_alpha=d.pitch_alpha,
        pitch_pitch_rate=d.pitch_pitch_rate,
        pitch_alpha_rate=d.pitch_alpha_rate,
    )


def lateral_of(aero: AeroResult) -> LateralDerivatives:
    """Lateral derivatives in stability axes.

    Args:
        aero: The plane's aerodynamics. [-]

    Returns:
        Derivatives.

    Source:
        Definition.

    Example:
        >>> 0.057 < lateral_of(aero).yaw_beta < 0.089
        True
    """
    d = aero.derivatives
    return LateralDerivatives(
        side_beta=d.side_beta,
        side_roll_rate=d.side_roll_rate,
        side_yaw_rate=d.side_yaw_rate,
        roll_beta=d.roll_beta,
        roll_roll_rate=d.roll_roll_rate,
        roll_yaw_rate=d.roll_yaw_rate,
        yaw_beta=d.yaw_beta,
        yaw_roll_rate=d.yaw_roll_rate,
        yaw_yaw_rate=d.yaw_yaw_rate,
    )
