"""What strength/ is given and answers."""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class LoadCase:
    """Numbers from the rooms that strength/ may not ask.

    Attributes:
        mass: All-up. [kg]
        wing_mass: Wing with its fittings: relieves the bending. [kg]
        lift_slope: Whole plane. [1/rad]
        lift_max: [-]
        stall_speed: [m/s]
        top_speed: Fastest the plane is flown: level top speed or 2.5 stall speed, the larger. [m/s]
        density: Air. [kg/m³]
        gust: Gust speed to check for. [m/s]
        static_thrust: [N]
        motor_mass: With propeller. [kg]
        hinge_moments: Control name -> moment one servo must hold. [N m]
        temperature: Of the glue in the sun. [K]
        lift_places: Fractions of the half span at which lift_shape is given; empty takes
            Schrenk's. [-]
        lift_shape: Lift per span there, in any measure. [any]
        propeller_mass: [kg]
        propeller_diameter: [m]
        shaft_speed: Of the propeller at full throttle. [rad/s]
        shaft_torque: At full throttle. [N m]
        throw_speed: Of the plane leaving the hand. [m/s]
        pack_mass: [kg]
        masses: All-up mass of many builds as a column; None for the typical one alone. [kg]
        wing_masses: Wing mass of the same builds. [kg]
    """

    mass: float
    wing_mass: float
    lift_slope: float
    lift_max: float
    stall_speed: float
    top_speed: float
    density: float
    gust: float
    static_thrust: float
    motor_mass: float
    hinge_moments: dict[str, float]
    temperature: float
    lift_places: tuple[float, ...] = ()
    lift_shape: tuple[float, ...] = ()
    propeller_mass: float = 0.0
    propeller_diameter: float = 0.0
    shaft_speed: float = 0.0
    shaft_torque: float = 0.0
    throw_speed: float = 0.0
    pack_mass: float = 0.0
    masses: Array | None = None
    wing_masses: Array | None = None


@dataclass(frozen=True, slots=True)
class Failure:
    """One way to break.

    Attributes:
        id: Such as "wing_top_buckling", "centre_joint", "bands", "firewall_bending".
        name: In trade words.
        place: Where on the plane.
        load_factor: Load factor (wing, bands) or ratio strength/load (others) at failure. [-]
        load_factor_band: Low / typical / high of the same. [-]
        why: One sentence with numbers.
        source: Publication or "assumed".
    """

    id: str
    name: str
    place: str
    load_factor: float
    load_factor_band: Band
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class StrengthResult:
    """Loads against strength, whole plane.

    Attributes:
        manoeuvre_load_factor: Largest the wing makes at top speed, capped by common practice. [-]
        gust_load_factor: [-]
        limit_load_factor: What wing, joint and bands hold before the first failure, typical. [-]
        first_failure: Name of that failure.
        needed_load_factor: The larger of manoeuvre and gust. [-]
        failures: All, weakest first; wing, joint and bands in g, others as strength over load.
        tip_deflection: At needed_load_factor. [m]
        wing_twist: At top speed per g or from aileron, the larger; nose-up at the tip. [rad]
        divergence_speed: None when it cannot be said. [m/s]
        stab_deflection: Tip of the stab under full elevator at top speed. [m]
        fin_deflection: [m]
        firewall_margin: Strength over load, less one. [-]
        servo_loads: Servo role -> moment needed at the servo over its rated moment. [-]
        stations: Half-span stations for plots. [m]
        bending_moment: At those stations at needed_load_factor. [N m]
        bending_strength: At those stations. [N m]
        notes: What could not be said, in words.
        unsaid: Failure id -> why it cannot be said: which figure stock lacks.
    """

    manoeuvre_load_factor: float
    gust_load_factor: float
    limit_load_factor: float
    first_failure: str
    needed_load_factor: float
    failures: tuple[Failure, ...]
    tip_deflection: float
    wing_twist: float
    divergence_speed: float | None
    stab_deflection: float
    fin_deflection: float
    firewall_margin: float
    servo_loads: dict[str, float]
    stations: tuple[float, ...]
    bending_moment: tuple[float, ...]
    bending_strength: tuple[float, ...]
    notes: tuple[str, ...]
    unsaid: Mapping[str, str] = field(default_factory=dict[str, str])
