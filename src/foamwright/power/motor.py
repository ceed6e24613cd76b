"""The three-constant motor, and constants from label and mass when stock knows none."""

import math

from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.power.model import MotorConstants

RPM_PER_RADIAN = 30.0 / math.pi
WARM_FACTOR = (1.0, 1.5, 2.4)  # [BENCH-5IN] bench resistance over catalogue regression, 7 motors
REGRESSION_SPREAD = 0.2  # rms of both regressions over 51 outrunners
LIMIT_SPREAD = 0.16  # rms of the current-limit regression
REGRESSION_SOURCE = "regression on 51 catalogue outrunners; bench factor 1.0-2.4"


def motor_current(torque: float, *, kv: float, no_load_current: float) -> float:
    """Motor current for a shaft torque.

    I = Q Kv + I0.

    Args:
        torque: Shaft torque. [N m]
        kv: Speed per volt. [rad/(s V)]
        no_load_current: [A]

    Returns:
        Current. [A]

    Source:
        [DRELA-MOTOR] 2007; reproduced in tests/validation/test_motor.py.

    Example:
        >>> round(motor_current(0.08785, kv=104.72, no_load_current=0.8), 2)
        10.0
    """
    return torque * kv + no_load_current


def motor_speed(voltage: float, current: float, *, kv: float, resistance: float) -> float:
    """Shaft speed at a voltage and current.

    omega = Kv (V - I R).

    Args:
        voltage: At the motor. [V]
        current: Through the motor. [A]
        kv: Speed per volt. [rad/(s V)]
        resistance: [ohm]

    Returns:
        Speed. [rad/s]

    Source:
        [DRELA-MOTOR] 2007; reproduced in tests/validation/test_motor.py.

    Example:
        >>> round(motor_speed(11.1, 10.0, kv=104.72, resistance=0.09) * 30 / 3.14159)
        10200
    """
    return kv * (voltage - current * resistance)


def motor_efficiency(
    voltage: float, current: float, *, resistance: float, no_load_current: float
) -> float:
    """Shaft power over electric power of the motor.

    eta = (1 - I0/I)(1 - I R/V).

    Args:
        voltage: At the motor. [V]
        current: Through the motor, above the no-load current. [A]
        resistance: [ohm]
        no_load_current: [A]

    Returns:
        Efficiency. [-]

    Source:
        [DRELA-MOTOR] 2007; reproduced in tests/validation/test_motor.py.

    Example:
        >>> round(motor_efficiency(11.1, 10.0, resistance=0.09, no_load_current=0.8), 4)
        0.8454
    """
    if current <= 0.0 or voltage <= 0.0:
        raise ModelError("Motor efficiency needs a voltage and a current above zero.")
    return (1.0 - no_load_current / current) * (1.0 - current * resistance / voltage)


def best_efficiency(
    voltage: float, *, resistance: float, no_load_current: float
) -> tuple[float, float]:
    """Current of best efficiency, and that efficiency.

    I = sqrt(V I0/R), eta = (1 - sqrt(I0 R/V))².

    Args:
        voltage: At the motor. [V]
        resistance: [ohm]
        no_load_current: [A]

    Returns:
        Current [A] and efficiency [-].

    Source:
        [DRELA-MOTOR] 2007; reproduced in tests/validation/test_motor.py.

    Example:
        >>> round(best_efficiency(11.1, resistance=0.09, no_load_current=0.8)[0], 2)
        9.93
    """
    current = math.sqrt(voltage * no_load_current / resistance)
    return current, (1.0 - math.sqrt(no_load_current * resistance / voltage)) ** 2


def motor_from_label(kv: float, mass: float) -> MotorConstants:
    """Constants of an outrunner of which only Kv and mass are known.

    R = 5.88e5 Kv^-1.454 m^-1.221, I0 = 1.11e-6 Kv^1.291 m^1.049, Imax = 1.60e-3 Kv^0.736 m^0.997
    (Kv in rpm/V, m in grams); R times 1.5 for leads, controller and warmth.

    Args:
        kv: Speed per volt. [rad/(s V)]
        mass: [kg]

    Returns:
        Constants with wide bands.

    Valid:
        17 to 250 g; outside, the band is doubled.

    Source:
        [MOTOR-51] rms 20, 20 and 16 %; factor on R from [BENCH-5IN], 1.0 to 2.4.

    Example:
        >>> round(motor_from_label(251.3, 0.028).resistance.typical, 2)
        0.18
    """
    if kv <= 0.0 or mass <= 0.0:
        raise ModelError("A motor needs a Kv and a mass above zero.")
    rpm, grams = kv * RPM_PER_RADIAN, mass * 1000.0
    wide = 1.0 if 17.0 <= grams <= 250.0 else 2.0
    resistance = 5.88e5 * rpm**-1.454 * grams**-1.221
    idle = 1.11e-6 * rpm**1.291 * grams**1.049
    limit = 1.60e-3 * rpm**0.736 * grams**0.997
    low, typical, high = WARM_FACTOR
    return MotorConstants(
        kv=Band(kv * 0.96, kv * 0.99, kv * 1.005, "label; [BENCH-5IN] measured over label"),
        resistance=Band(
            resistance * low / wide,
            resistance * typical,
            resistance * high * wide,
            REGRESSION_SOURCE,
        ),
        no_load_current=_around(idle, REGRESSION_SPREAD * wide),
        max_current=_around(limit, LIMIT_SPREAD * wide),
        mass=Band.exact(mass),
    )


def _around(value: float, spread: float) -> Band:
    factor = 1.0 + 1.2816 * spread
    return Band(value / factor, value, value * factor, REGRESSION_SOURCE)
