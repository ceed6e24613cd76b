"""The propeller with the throttle closed: it freewheels, is held by a brake, or is folded."""

from typing import Literal

import numpy as np

from foamwright.core.errors import ModelError
from foamwright.power.circuit import circuit_of, freewheel_speed, still_drag_area, turning
from foamwright.power.curves import Array
from foamwright.power.model import PowerTrain

type Idle = Literal["free", "braked", "folded"]
FOLDED_DRAG = 0.10  # on the blade area, as a feathered propeller; [RAYMER] from memory


def idle_thrust(train: PowerTrain, airspeed: float, *, state: Idle, density: float) -> float:
    """Thrust of the propeller with the throttle closed, negative as drag.

    Free: it turns where the air's torque equals the motor's idle torque, or stands still.
    Braked: the blades stand across the stream. Folded: they lie along the fuselage.

    Args:
        train: The power train.
        airspeed: [m/s]
        state: "free", "braked" or "folded". [-]
        density: Air density. [kg/m³]

    Returns:
        Thrust. [N]

    Valid:
        Free: a straight continuation of curves measured down to a little below zero thrust; drag
        within a third. Braked: 0.8 to 1.17 of it. Folded: only hinged blades.

    Raises:
        ModelError: Airspeed below zero, an unknown state, or blades that do not fold.

    Source:
        Torque balance on [UIUC-PROP] continued, tests/validation/test_windmilling.py; blades as
        plates [HOERNER]; folded as feathered [RAYMER].

    Example:
        >>> idle_thrust(train, 9.0, state="braked", density=1.225)  # doctest: +SKIP
        -0.18
    """
    speeds = np.array([airspeed], dtype=float)
    return float(idle_thrusts(train, speeds, state=state, density=density)[0])


def idle_thrusts(train: PowerTrain, airspeeds: Array, *, state: Idle, density: float) -> Array:
    """Thrust of the idle propeller over many airspeeds, see idle_thrust.

    Args:
        train: The power train.
        airspeeds: [m/s]
        state: "free", "braked" or "folded". [-]
        density: Air density. [kg/m³]

    Returns:
        Thrust, negative as drag. [N]

    Valid:
        As idle_thrust.

    Raises:
        ModelError: Airspeed below zero, an unknown state, or blades that do not fold.

    Source:
        As idle_thrust.

    Example:
        >>> idle_thrusts(train, np.array([9.0]), state="braked", density=1.225)  # doctest: +SKIP
        array([-0.18])
    """
    if not np.all(np.isfinite(airspeeds)) or np.min(airspeeds) < 0.0:
        raise ModelError(f"Airspeed is {np.min(airspeeds):g} m/s; it must be zero or more.")
    if state == "folded" and train.propeller.kind != "folding":
        raise ModelError(f"A {train.propeller.kind} propeller has no hinged blades to fold.")
    plate = -0.5 * density * airspeeds**2 * still_drag_area(train.propeller)
    if state == "folded":
        return FOLDED_DRAG * plate
    if state == "braked":
        return plate
    if state != "free":
        raise ModelError(f'"{state}" is no state of a propeller: free, braked or folded.')
    circuit = circuit_of(train, density, depth_of_discharge=0.4)
    speed = freewheel_speed(circuit, airspeeds)
    turns = speed > 0.0
    return np.where(turns, turning(circuit, airspeeds, np.where(turns, speed, 1.0)).thrust, plate)
