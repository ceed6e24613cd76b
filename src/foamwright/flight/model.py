"""What flight/ answers."""

from dataclasses import dataclass

from foamwright.flight.gusts import GustResponse
from foamwright.flight.powered import PowerTrim
from foamwright.flight.rudder import RudderTurn


@dataclass(frozen=True, slots=True)
class Performance:
    """Level flight, climb and endurance.

    Attributes:
        level_speed: Comfortable cruise: 1.4 times stall speed. [m/s]
        level_throttle: Stick position there, 0 to 1; None when it cannot hold level. [-]
        level_current: [A]
        level_power: Electric. [W]
        climb_rate: Best, full throttle. [m/s]
        climb_angle: Steepest. [rad]
        climb_speed: Of the best rate. [m/s]
        top_speed: Level, full throttle. [m/s]
        pitch_speed_ratio: Pitch speed over stall speed. [-]
        sink_rate: Least, power off. [m/s]
        glide_ratio: Best, power off, propeller as it is. [-]
        endurance: At level_speed with the usual reserve of 20 %. [s]
        thrust_weight: Static thrust over weight. [-]
        speeds: For plots. [m/s]
        thrust: Full throttle at those speeds. [N]
        drag: Level flight at those speeds. [N]
        notes: In words.
    """

    level_speed: float
    level_throttle: float | None
    level_current: float
    level_power: float
    climb_rate: float
    climb_angle: float
    climb_speed: float
    top_speed: float
    pitch_speed_ratio: float
    sink_rate: float
    glide_ratio: float
    endurance: float
    thrust_weight: float
    speeds: tuple[float, ...]
    thrust: tuple[float, ...]
    drag: tuple[float, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Mode:
    """One natural motion.

    Attributes:
        name: "short period", "phugoid", "Dutch roll", "roll", "spiral".
        real: Real part of the eigenvalue. [1/s]
        imag: Imaginary part. [rad/s]
        damping: Damping ratio; 1 or more for a non-oscillating stable one. [-]
        period: [s]; None when it does not oscillate.
        time_to_half: To half (or, negative, to double) the amplitude. [s]
        feel: Words on how it feels.
        real_spread: One standard deviation of `real`; None when it was not asked for. [1/s]
        imag_spread: Same of `imag`. [rad/s]
    """

    name: str
    real: float
    imag: float
    damping: float
    period: float | None
    time_to_half: float
    feel: str
    real_spread: float | None = None
    imag_spread: float | None = None


@dataclass(frozen=True, slots=True)
class Launch:
    """A hand launch with the builder's throw, still air.

    Attributes:
        throw_speed: [m/s]
        flying_speed: Needed: 1.15 times stall speed. [m/s]
        deficit: Flying speed less throw speed, not below 0. [m/s]
        height_lost: Before it flies, three-quarter throttle, level throw; large when it never
            does. [m]
        flies: Whether it flies before the throw height is used up.
    """

    throw_speed: float
    flying_speed: float
    deficit: float
    height_lost: float
    flies: bool


@dataclass(frozen=True, slots=True)
class FlightResult:
    """Everything flight/ says about the plane.

    Attributes:
        performance: Level, climb, endurance.
        modes: Five natural motions at trim speed.
        spiral_parameter: Tail arm over span times dihedral in degrees over lift coefficient. [-]
        launch: Hand launch.
        wind_limit: Mean wind in which it can be flown. [m/s]
        thrust_pitch: Pitching moment coefficient of full thrust at level speed about the CG. [-]
        kinetic_energy: At top speed. [J]
        power_trim: From glide to full power at level speed, and the thrust angles that null it.
        rudder_turn: Full rudder alone; None without a rudder.
        gusts: In the wind of wind_limit.
        gust_limit: Mean wind at which stall, roll or headway gives out in gusts. [m/s]
    """

    performance: Performance
    modes: tuple[Mode, ...]
    spiral_parameter: float
    launch: Launch
    wind_limit: float
    thrust_pitch: float
    kinetic_energy: float
    power_trim: PowerTrim | None = None
    rudder_turn: RudderTurn | None = None
    gusts: GustResponse | None = None
    gust_limit: float | None = None
