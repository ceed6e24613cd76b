"""The ground under the plane: springs and friction at a few points."""

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.state import RATES, VELOCITY

type Array = NDArray[np.float64]

SLIDES = 0.3  # m/s, below which friction fades, so that a plane at rest does not shake


def lowest_of(craft: Craft, state: Array, turn: Array) -> Array:
    """Height of the lowest point of each plane above the ground.

    Args:
        craft: The plane, one build for all or one a row. [-]
        state: One row a member. [SI]
        turn: Body to ground, as rotation_of. [-]

    Returns:
        Negative below the ground. [m]

    Source:
        Definition.

    Example:
        >>> at = np.zeros((1, 18)); at[0, 2] = -5.0
        >>> 4.5 < float(lowest_of(plane.craft, at, np.eye(3)[None])[0]) < 5.0
        True
    """
    points = craft.touch.points[None] + craft.builds.reference[:, None, :]
    points = np.broadcast_to(points, (len(state), *points.shape[1:]))
    below = np.einsum("nj,npj->np", turn[:, 2], points)
    return -(state[:, 2] + below.max(axis=1))


def ground_loads(craft: Craft, state: Array, turn: Array) -> tuple[Array, Array]:
    """Force and moment about the CG of the points that touch the ground, body axes.

    Args:
        craft: The plane. [-]
        state: One row a member. [SI]
        turn: Body to ground. [-]

    Returns:
        Force [N] and moment [N m].

    Valid:
        Flat grass; springs, so a plane rests a little in the ground.

    Source:
        Spring, damper and dry friction at a few points; figures assumed, see craft.Touch.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=10.0, alpha=0.05)
        >>> float(ground_loads(plane.craft, at, np.eye(3)[None])[0].max())
        0.0
    """
    touch = craft.touch
    down, reference = turn[:, 2, :], craft.builds.reference
    depth = state[:, 2:3] + down @ touch.points.T + (down * reference).sum(axis=1)[:, None]
    inside = depth > 0.0
    if not inside.any():
        return np.zeros((len(state), 3)), np.zeros((len(state), 3))
    points = touch.points[None] + reference[:, None, :]
    points = np.broadcast_to(points, (len(state), *touch.points.shape))
    moving = state[:, None, VELOCITY] + np.cross(state[:, None, RATES], points)
    over = np.einsum("nij,npj->npi", turn, moving)
    press = np.where(inside, touch.stiffness * depth + touch.damping * over[..., 2], 0.0)
    press = np.maximum(press, 0.0)
    slide = np.sqrt(over[..., 0] ** 2 + over[..., 1] ** 2)
    rub = touch.friction * press / np.maximum(slide, SLIDES)
    ground = np.stack([-rub * over[..., 0], -rub * over[..., 1], -press], axis=-1)
    body: Array = np.einsum("nij,npi->npj", turn, ground)
    return body.sum(axis=1), np.cross(points, body).sum(axis=1)
