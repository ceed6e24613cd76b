"""What power/ works with and answers."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band

CONTROLLER_LOSS = 0.32  # eff = 1 - 0.32 (1 - duty); median over [BENCH-5IN], see docs


@dataclass(frozen=True, slots=True)
class MotorConstants:
    """Three-constant motor, leads and controller resistance apart.

    Attributes:
        kv: Speed per volt. [rad/(s V)]
        resistance: Warm winding. [ohm]
        no_load_current: [A]
        max_current: Continuous limit. [A]
        mass: [kg]
    """

    kv: Band
    resistance: Band
    no_load_current: Band
    max_current: Band
    mass: Band


@dataclass(frozen=True, slots=True)
class PropellerConstants:
    """A propeller as fitted from what is printed on it.

    Attributes:
        kind: "slow flight", "electric", "sport", "folding", "direct drive".
        diameter: [m]
        pitch: [m]
        blades: [-]
        thrust_scale: Multiplies the fitted thrust coefficient; 1 until a reading sharpens it. [-]
        power_scale: Same for power. [-]
        thrust_spread: One standard deviation of the static thrust coefficient, relative. [-]
        power_spread: Same for power. [-]
        in_fit_range: Whether diameter and pitch lie inside the fitted set.
        mass: [kg]
        line: Blade line within the kind, as in the fitted set; "" when unknown.
        advance_scale: Multiplies the fitted zero-thrust advance ratio. [-]
        advance_spread: One standard deviation of the zero-thrust advance ratio, relative. [-]
        curve_shift: Added to the other fitted curve parameters after a reading; empty before. [-]
        curve_covariance: Of the curve parameters after a reading; empty before. [-]
    """

    kind: str
    diameter: float
    pitch: float
    blades: int
    thrust_scale: float
    power_scale: float
    thrust_spread: float
    power_spread: float
    in_fit_range: bool
    mass: Band
    line: str = ""
    advance_scale: float = 1.0
    advance_spread: float = 0.1
    curve_shift: tuple[float, ...] = ()
    curve_covariance: tuple[tuple[float, ...], ...] = ()


@dataclass(frozen=True, slots=True)
class PackConstants:
    """The LiPo.

    Attributes:
        cells: In series. [-]
        capacity: [A s]
        resistance: Whole pack with leads. [ohm]
        max_current: What it gives without harm, continuous. [A]
        mass: [kg]
        cutoff: Cell voltage under load at which the controller stops. [V]
    """

    cells: int
    capacity: float
    resistance: Band
    max_current: Band
    mass: Band
    cutoff: float


@dataclass(frozen=True, slots=True)
class PowerTrain:
    """Motor, propeller, controller and pack put together.

    Attributes:
        motor: Constants.
        propeller: Constants.
        pack: Constants.
        controller_resistance: [ohm]
        controller_current: Continuous limit. [A]
        controller_loss: Share of the power lost at part throttle, over 1 - duty. [-]
    """

    motor: MotorConstants
    propeller: PropellerConstants
    pack: PackConstants
    controller_resistance: float
    controller_current: float
    controller_loss: float = CONTROLLER_LOSS


@dataclass(frozen=True, slots=True)
class PowerPoint:
    """The power train at one airspeed and throttle.

    Attributes:
        thrust: [N]
        current: From the pack. [A]
        voltage: At the pack's terminals. [V]
        speed: Propeller. [rad/s]
        torque: Shaft. [N m]
        shaft_power: [W]
        electric_power: From the pack. [W]
        efficiency: thrust * airspeed / electric power. [-]
        advance_ratio: V/(nD). [-]
        extrapolated: Whether it lies outside the fitted range of the propeller.
    """

    thrust: float
    current: float
    voltage: float
    speed: float
    torque: float
    shaft_power: float
    electric_power: float
    efficiency: float
    advance_ratio: float
    extrapolated: bool


@dataclass(frozen=True, slots=True)
class PowerMap:
    """The power train over airspeeds (rows) and throttles (columns); every field is such an array.

    Attributes:
        airspeed: Of each row. [m/s]
        throttle: Of each column. [-]
        thrust: [N]
        current: From the pack. [A]
        voltage: At the pack's terminals. [V]
        speed: Propeller. [rad/s]
        torque: Shaft. [N m]
        shaft_power: [W]
        electric_power: From the pack. [W]
        efficiency: thrust * airspeed / electric power; 0 where no power is drawn. [-]
        advance_ratio: V/(nD); 0 where the propeller stands still. [-]
        extrapolated: Whether it lies outside the fitted range of the propeller.
    """

    airspeed: NDArray[np.float64]
    throttle: NDArray[np.float64]
    thrust: NDArray[np.float64]
    current: NDArray[np.float64]
    voltage: NDArray[np.float64]
    speed: NDArray[np.float64]
    torque: NDArray[np.float64]
    shaft_power: NDArray[np.float64]
    electric_power: NDArray[np.float64]
    efficiency: NDArray[np.float64]
    advance_ratio: NDArray[np.float64]
    extrapolated: NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class PowerResult:
    """Answers that need no airframe.

    Attributes:
        train: What they were computed from.
        static_thrust: Full throttle, rested full pack. [N]
        static_thrust_band: [N]
        full_throttle_current: Static. [A]
        full_throttle_current_band: [A]
        full_throttle_power: Electric, static. [W]
        static_speed: Propeller. [rad/s]
        pitch_speed: Pitch times revolutions at full throttle, static. [m/s]
        notes: Extrapolations, in words.
    """

    train: PowerTrain
    static_thrust: float
    static_thrust_band: Band
    full_throttle_current: float
    full_throttle_current_band: Band
    full_throttle_power: float
    static_speed: float
    pitch_speed: float
    notes: tuple[str, ...]
