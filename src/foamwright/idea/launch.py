"""The share of hand launches that fly away, simulated."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from foamwright.core.errors import DesignError, ModelError
from foamwright.flight.simulation.thrower import thrower_for
from foamwright.flight.simulation.throws import AWAY, Launch, throw

if TYPE_CHECKING:
    from foamwright.plane import Plane

THROWS = 200  # a share is then known to three or four points
SEED = 1  # every plane meets the same hands


def launch_share(plane: Plane, *, throws: int = THROWS, seed: int = SEED) -> float | None:
    """Share of hand launches in still air that fly away.

    Args:
        plane: The plane. [-]
        throws: How many. [-]
        seed: Same seed, same hands and pilots. [-]

    Returns:
        Share; None when it cannot be said. [-]

    Valid:
        As the flight simulation; an adult who has thrown before, seven tenths of the stick.

    Source:
        docs/physics/flight-simulation.md.

    Example:
        >>> launch_share(plane, throws=20) > 0.5
        True
    """
    pilot = plane.design.pilot
    thrower = thrower_for(
        plane.balance.all_up_mass, speed=pilot.throw_speed, height=pilot.throw_height
    )
    try:
        found = throw(plane.craft, Launch(thrower), throws, seed, workers=1)
    except (DesignError, ModelError):
        return None
    return float(np.mean(found.end == AWAY))
