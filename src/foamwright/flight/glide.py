"""The glide with the propeller as it can be: freewheeling, held by a brake, folded."""

from dataclasses import dataclass

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.core.air import GRAVITY
from foamwright.flight.curves import level_drag
from foamwright.power.idle import Idle, idle_thrusts
from foamwright.power.model import PowerTrain

SPEEDS = np.linspace(1.02, 2.2, 30)  # over stall speed


@dataclass(frozen=True, slots=True)
class Glide:
    """Best glide with the propeller in one state.

    Attributes:
        state: "free", "braked" or "folded".
        ratio: Distance over height, still air. [-]
        speed: Where. [m/s]
        least_sink: Slowest way down, at its own speed. [m/s]
    """

    state: Idle
    ratio: float
    speed: float
    least_sink: float


def glides(
    aero: AeroResult, train: PowerTrain, mass: float, *, density: float
) -> tuple[Glide, ...]:
    """Best glide for every state that the propeller can be in.

    Args:
        aero: The plane's aerodynamics. [-]
        train: The power train. [-]
        mass: All-up. [kg]
        density: Air. [kg/m³]

    Returns:
        Freewheeling and braked; folded too where the blades are hinged.

    Valid:
        As foamwright.power.idle: the drag of a freewheeling propeller is good to a factor of 1.5.

    Source:
        Force balance: height lost over distance is drag over weight.

    Example:
        >>> 6.7 < glides(aero, train, 0.5, density=1.225)[0].ratio < 10
        True
    """
    speeds = aero.stall_speed * SPEEDS
    weight = mass * GRAVITY
    drag = level_drag(aero, mass, speed=speeds, density=density)
    states: tuple[Idle, ...] = ("free", "braked")
    if train.propeller.kind == "folding":
        states = (*states, "folded")
    answers: list[Glide] = []
    for state in states:
        pull = idle_thrusts(train, speeds, state=state, density=density)
        slope = (drag - pull) / weight
        best = int(np.argmin(slope))
        answers.append(
            Glide(
                state,
                float(1.0 / slope[best]),
                float(speeds[best]),
                float(np.min(speeds * slope)),
            )
        )
    return tuple(answers)
