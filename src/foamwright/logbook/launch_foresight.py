"""How a hand launch would go for every guess of what is off, all guesses at once."""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.launch import FLYING, REACTION, TRIM_SPEED, USABLE_LIFT
from foamwright.logbook.basis import Basis
from foamwright.logbook.foresight import AS_DRAWN, Set, stall_speed
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.linear import at

type Array = NDArray[np.float64]

STEP = 0.05  # s
STEPS = 50
DEEPEST = 6.0  # m; what sinks that far has sunk
UNCAUGHT = 0.8  # s of roll before the hand is on the stick and the plane answers; assumed


def foresee_launch(
    basis: Basis, hidden: Array, trims: Set = AS_DRAWN, *, sink: Array | None = None
) -> Mapping[str, Array]:
    """Sink, bank and pitch in the first seconds of a throw into the wind.

    A point mass as in flight/launch.py; the bank is the simulation's roll rate at the throw's
    airspeed and three-quarter throttle over the time that nobody holds it; the pitch is the
    elevator that would have been needed.

    Args:
        basis: The plane as drawn. [-]
        hidden: Guesses, one a row. [as hidden.py]
        trims: Trims as they were set, and the wind. [-]
        sink: Where it is known already; None works it out. [-]

    Returns:
        "sink" over the throw's height [-], "bank" to the right and "pitch" nose up [rad].

    Valid:
        Level throw, wings level.

    Source:
        Newton's law as in flight/launch.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> sorted(foresee_launch(basis_of(plane), np.zeros((1, 18))))
        ['bank', 'pitch', 'sink']
    """
    throw = np.maximum(basis.throw_speed + hidden[:, COLUMN["throw_speed"]] + trims.wind, 1.0)
    answers = basis.responses
    rate = at(answers.roll_launch, hidden, aileron=trims.aileron, rudder=trims.rudder)
    pitch = at(answers.launch_pitch, hidden) + hidden[:, COLUMN["trim_model"]] - trims.elevator
    deep = _sink(basis, hidden, throw) / basis.throw_height if sink is None else sink
    return {"sink": deep, "bank": UNCAUGHT * rate, "pitch": pitch}


def _sink(basis: Basis, hidden: Array, throw: Array) -> Array:
    """Lowest point before a plane flies and no longer sinks."""
    aero = basis.aero
    stall = stall_speed(basis, hidden)
    most = USABLE_LIFT * aero.lift_max * (1.0 + hidden[:, COLUMN["lift_max"]])
    mass = basis.mass * (1.0 + hidden[:, COLUMN["mass"]])
    zero = aero.drag_zero * (1.0 + hidden[:, COLUMN["drag"]])
    push = 1.0 + hidden[:, COLUMN["thrust"]]
    speed, path = throw.copy(), np.zeros_like(throw)
    height, lowest, flown = np.zeros_like(throw), np.zeros_like(throw), np.zeros(len(throw), bool)
    table = basis.table
    for step in range(STEPS):
        pressure = 0.5 * basis.density * speed**2 * aero.wing_area
        wanted = mass * GRAVITY * np.cos(path) / pressure
        wanted = wanted + np.where(path < 0.0, -2.0 * path * mass * speed / pressure, 0.0)
        free = aero.lift_max / TRIM_SPEED**2
        lift = free if step * STEP < REACTION else np.clip(wanted, 0.0, most)
        drag = pressure * (zero + aero.drag_lift_factor * (lift - aero.lift_at_drag_min) ** 2)
        thrust = np.interp(speed, table.speed, table.launch) * push
        along = (thrust - drag) / mass - GRAVITY * np.sin(path)
        turn = (pressure * lift / mass - GRAVITY * np.cos(path)) / np.maximum(speed, 0.5)
        height = height + STEP * speed * np.sin(path + 0.5 * STEP * turn)
        speed = np.clip(speed + STEP * along, 0.5, None)
        path = np.clip(path + STEP * turn, -0.5 * math.pi, 0.5)
        lowest = np.where(flown, lowest, np.minimum(lowest, height))
        flown |= (speed >= FLYING * stall) & (path >= -0.02) & (step * STEP >= REACTION)
    return np.where(flown, -lowest, np.minimum(np.maximum(-lowest, DEEPEST), 2.0 * DEEPEST))
