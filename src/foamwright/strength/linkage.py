"""From hinge moment to servo and pushrod."""

from foamwright.core.errors import ModelError
from foamwright.design.model import Servo
from foamwright.stock.model import Stock
from foamwright.strength.beams import rod_second_moment
from foamwright.strength.buckling import euler_load

CONTROLS_OF_ROLE = {
    "aileron": ("aileron",),
    "aileron left": ("aileron",),
    "aileron right": ("aileron",),
    "elevator": ("elevator",),
    "rudder": ("rudder",),
    "vee left": ("elevator", "rudder"),
    "vee right": ("elevator", "rudder"),
}


def servo_moment(moment: float, *, arm: float, horn: float) -> float:
    """Moment at the servo for a hinge moment, H arm / horn, both near square to the rod.

    Args:
        moment: At the hinge. [N m]
        arm: Hole used on the servo arm. [m]
        horn: Hole used on the horn. [m]

    Returns:
        Moment at the servo. [N m]

    Source:
        Statics; reproduced in tests/validation/test_hinges.py.

    Example:
        >>> round(servo_moment(0.0605238, arm=0.008, horn=0.014), 6)
        0.034585
    """
    return moment * arm / horn


def role_moment(servo: Servo, hinge_moments: dict[str, float]) -> float | None:
    """Hinge moment that a servo of a role must hold; None when nobody has computed it.

    A V-tail's servo holds elevator and rudder together.

    Args:
        servo: The design's servo. [-]
        hinge_moments: Control name -> moment one servo must hold. [N m]

    Returns:
        Moment at the hinge. [N m]

    Source:
        Definition.

    Example:
        >>> role_moment(servo, {"elevator": 0.02})  # doctest: +SKIP
        0.02
    """
    found = [hinge_moments[c] for c in CONTROLS_OF_ROLE[servo.role] if c in hinge_moments]
    return sum(found) if found else None


def pushrod_ratio(servo: Servo, stock: Stock, *, moment: float) -> tuple[float, float, float]:
    """Euler load of the longest free length of a pushrod over the push in it.

    Args:
        servo: The design's servo. [-]
        stock: The stock tables. [-]
        moment: At the hinge. [N m]

    Returns:
        Ratio [-], push [N], Euler load [N].

    Raises:
        ModelError: The horn or the free length is zero.

    Source:
        [ROARK] ch. 15.

    Example:
        >>> pushrod_ratio(servo, stock, moment=0.02)[0]  # doctest: +SKIP
        6.3
    """
    if servo.horn <= 0.0 or servo.rod_support <= 0.0:
        raise ModelError(f"The {servo.role} horn and its pushrod need a length above zero.")
    rod = stock.rods[servo.rod]
    inertia = rod_second_moment(rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round)
    push = moment / servo.horn
    holds = float(euler_load(rod.modulus.typical * inertia, servo.rod_support))
    return holds / max(push, 1e-9), push, holds
