"""The plane as the equations of motion need it: arrays, for one build or for n side by side."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.lattice_forces import LatticeForces
from foamwright.flight.simulation.propulsion import ThrustGrid

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class StripLoads:
    """Strips as matrices about the design's CG, body axes.

    Attributes:
        velocity: (6, 2 strips): speed along each chord and square to it from below. [-]
        gain: Circulation per wash square to the chord. [m]
        zero: Minus the zero-lift angle of the working line. [rad]
        blow: (strip, strip): wash at each (columns) from unit circulation source (rows). [1/m]
        chord: [m]
        width: [m]
        row: First row of each strip's section in `table`. [-]
        table: Lift, drag, moment beyond the working line and their steps, see section_grid. [-]
        controls: (4, strip): incidence per radian of right and left aileron, elevator, rudder. [-]
        load: (3 strips, 6): force and moment of each strip's normal force, axial force and
            moment. [-], [m]
        turn: (strip, 3): moment of each strip's induced drag. [m]
        jet: Share of the slipstream's extra speed that each strip feels. [-]
        surface: Index of the surface. [-]
        side: 1 right, -1 left, 0 in the middle. [-]
        place: Fraction of the half span. [-]
    """

    velocity: Array
    gain: Array
    zero: Array
    blow: Array
    chord: Array
    width: Array
    row: NDArray[np.intp]
    table: Array
    controls: Array
    load: Array
    turn: Array
    jet: Array
    surface: NDArray[np.int_]
    side: NDArray[np.int_]
    place: Array


@dataclass(frozen=True, slots=True)
class WholeLoads:
    """What acts on the plane as a whole, about the design's CG.

    Attributes:
        density: Air. [kg/m³]
        area: Wing. [m²]
        span: [m]
        chord: Mean aerodynamic. [m]
        datum: From the design's CG to the datum (the nose), body axes. [m]
        drag_zero: [-]
        drag_factor: [-]
        drag_bucket: Lift coefficient of least drag. [-]
        lift_max: Largest trimmed lift coefficient: the drag curve is held beyond. [-]
        section_moment: Pitching moment coefficient of the wing's sections. [-]
        elevator_moment: Pitching moment per worked elevator, on area and chord. [1/rad]
        body_pitch: Of the fuselage per angle of attack and dynamic pressure. [m³]
        body_yaw: Per sideslip and dynamic pressure. [m³]
        body_side: Side force per sideslip and dynamic pressure. [m²]
        body_cross: Drag area of the fuselage square to the stream: side, top. [m²]
        wing_height_roll: Rolling moment coefficient per sideslip. [1/rad]
        pitch_alpha_rate: Pitching moment per alpha rate. [-]
    """

    density: float
    area: float
    span: float
    chord: float
    datum: Array
    drag_zero: float
    drag_factor: float
    drag_bucket: float
    lift_max: float
    section_moment: float
    elevator_moment: float
    body_pitch: float
    body_yaw: float
    body_side: float
    body_cross: tuple[float, float]
    wing_height_roll: float
    pitch_alpha_rate: float


@dataclass(frozen=True, slots=True)
class Screw:
    """The propeller on the plane, turning right as seen from behind.

    Attributes:
        hub: From the design's CG, body axes. [m]
        radius: [m]
        pitch: [m]
        blades: [-]
        inertia: About the shaft. [kg m²]
        disc: Area. [m²]
        immersed: Share of wing, stab, fin in the slipstream, as foamwright.aero.slipstream. [-]
        swirled: Share of what stands upright at the tail that the swirl blows upon, its part below
            the thrust line counted against that above. [-]
        torque_kept: Share of the torque that the plane feels; swirl taken out behind the propeller
            gives the rest back. [-]
        swirl: Whether swirl, torque, gyroscopic and blade moments act at all: 1 or 0. [-]
    """

    hub: Array
    radius: float
    pitch: float
    blades: int
    inertia: float
    disc: float
    immersed: Array
    swirled: float
    torque_kept: float
    swirl: float = 1.0


@dataclass(frozen=True, slots=True)
class Touch:
    """Points that may touch the ground.

    Attributes:
        points: From the design's CG, body axes, (p, 3). [m]
        names: What each is.
        stiffness: Of the ground under one point. [N/m]
        damping: [N s/m]
        friction: Coefficient, grass. [-]
    """

    points: Array
    names: tuple[str, ...]
    stiffness: float
    damping: float
    friction: float


@dataclass(frozen=True, slots=True)
class Builds:
    """What differs from build to build; first axis the build.

    Attributes:
        mass: [kg]
        inertia: About the CG, body axes, (n, 3, 3). [kg m²]
        inverse: Of the same. [1/(kg m²)]
        reference: From the CG to the design's CG, body axes. [m]
        axis: Of the thrust, body axes. [-]
        incidence: Extra incidence of each strip, (n, strip). [rad]
        neutral: Aileron (right down), elevator (down), rudder (left) with sticks centred. [rad]
        drag_factor: [-]
        lift_stretch: Factor on the largest lift of the sections. [-]
        motor_factor: [-]
        pack_factor: [-]
        slop: Free play. [rad]
        servo_rate: Full stick a second. [1/s]
    """

    mass: Array
    inertia: Array
    inverse: Array
    reference: Array
    axis: Array
    incidence: Array
    neutral: Array
    drag_factor: Array
    lift_stretch: Array
    motor_factor: Array
    pack_factor: Array
    slop: Array
    servo_rate: Array


@dataclass(frozen=True, slots=True)
class Craft:
    """One design with the flaws of one or of n builds.

    Attributes:
        name: Of the plane.
        lattice: Attached flow.
        strips: What stall, warp and lowered ailerons add.
        whole: Fuselage, drag and what is not a strip.
        screw: The propeller.
        thrust: The power train.
        travel: Largest deflection: aileron up, down; elevator up, down; rudder left, right. [rad]
        touch: Ground contact.
        builds: What differs from build to build.
        flaws: As given.
        stall_speed: Of the design, level, power off. [m/s]
        trim_speed: Comfortable level speed, 1.4 times stall speed. [m/s]
        elevator_trim: Elevator that the design trims hands-off at trim_speed, power off; part of
            `builds.neutral`. [rad]
    """

    name: str
    lattice: LatticeForces
    strips: StripLoads
    whole: WholeLoads
    screw: Screw
    thrust: ThrustGrid
    travel: Array
    touch: Touch
    builds: Builds
    flaws: Flaws
    stall_speed: float
    trim_speed: float
    elevator_trim: float

    @property
    def count(self) -> int:
        """Builds side by side [-]."""
        return len(self.builds.mass)

    @property
    def strip_count(self) -> int:
        """Strips [-]; the state has so many numbers more than 18."""
        return len(self.strips.chord)

    def take(self, which: NDArray[np.intp] | NDArray[np.bool_]) -> "Craft":
        """Some of the builds, by index or mask [-]."""
        builds = {name: getattr(self.builds, name)[which] for name in Builds.__slots__}
        flaws = {name: getattr(self.flaws, name)[which] for name in Flaws.__slots__}
        return replace(self, builds=Builds(**builds), flaws=Flaws(**flaws))
