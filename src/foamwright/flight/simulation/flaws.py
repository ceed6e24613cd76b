"""What a build may get wrong, put into the plane on purpose."""

from dataclasses import dataclass, fields
from typing import Self

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError

type Array = NDArray[np.float64]
type Number = float | Array


@dataclass(frozen=True, slots=True)
class Flaws:
    """Departures of one build, or of n builds side by side, from the design; default: none.

    Every field is a number or an array with one number a build.

    Attributes:
        left_twist: Warp of the left wing at its tip, growing straight from the root; leading edge
            up (washin) positive, washout negative. [rad]
        right_twist: Same of the right wing. [rad]
        cg_shift_aft: CG behind where the design has it. [m]
        cg_shift_right: CG to the right of the middle. [m]
        mass_factor: All-up mass over the design's; inertia goes along. [-]
        drag_factor: Drag at zero lift over the design's. [-]
        lift_max_factor: Largest lift of the sections over the tables'. [-]
        thrust_down_error: Thrust line more down than designed. [rad]
        thrust_right_error: Thrust line more to the right. [rad]
        incidence_error: Wing set more leading edge up. [rad]
        stab_incidence_error: Stab set more leading edge up. [rad]
        fin_error: Fin set leading edge to the right. [rad]
        left_tip_mass: Added at the left wing tip. [kg]
        right_tip_mass: Added at the right wing tip. [kg]
        motor_factor: Thrust, torque and current at a stick over the design's. [-]
        pack_resistance_factor: Resistance of the pack over the design's. [-]
        aileron_neutral: Right aileron down, left one up with the stick centred; rolls left.
            [rad]
        elevator_neutral: Elevator down with the stick centred. [rad]
        rudder_neutral: Rudder trailing edge left with the stick centred. [rad]
        slop: Free play of each surface, from stop to stop. [rad]
        servo_factor: Speed of the servos over the usual one. [-]
    """

    left_twist: Number = 0.0
    right_twist: Number = 0.0
    cg_shift_aft: Number = 0.0
    cg_shift_right: Number = 0.0
    mass_factor: Number = 1.0
    drag_factor: Number = 1.0
    lift_max_factor: Number = 1.0
    thrust_down_error: Number = 0.0
    thrust_right_error: Number = 0.0
    incidence_error: Number = 0.0
    stab_incidence_error: Number = 0.0
    fin_error: Number = 0.0
    left_tip_mass: Number = 0.0
    right_tip_mass: Number = 0.0
    motor_factor: Number = 1.0
    pack_resistance_factor: Number = 1.0
    aileron_neutral: Number = 0.0
    elevator_neutral: Number = 0.0
    rudder_neutral: Number = 0.0
    slop: Number = 0.0
    servo_factor: Number = 1.0

    @property
    def count(self) -> int:
        """Builds side by side [-]."""
        return max(np.size(getattr(self, f.name)) for f in fields(self))

    def spread(self) -> Self:
        """The same with every field an array of one number a build."""
        count = self.count
        made: dict[str, Array] = {}
        for field in fields(self):
            value = np.atleast_1d(np.asarray(getattr(self, field.name), dtype=float)).ravel()
            if len(value) not in (1, count):
                raise ModelError(
                    f"Flaws of {count} builds were given, but {field.name} has {len(value)} values."
                )
            if not np.isfinite(value).all():
                raise ModelError(f"A flaw must be a finite number; {field.name} is not.")
            made[field.name] = np.broadcast_to(value, (count,)).copy()
        return type(self)(**made)


NO_FLAWS = Flaws()
