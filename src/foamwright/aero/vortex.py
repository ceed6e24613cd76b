"""Velocity induced by horseshoe vortices whose legs run straight back."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

TINY = 1e-18  # m², keeps a point on a vortex line from dividing by zero; the product there is zero


def horseshoe(
    points: Array, start: Array, end: Array, *, core: Array | float = 0.0
) -> tuple[Array, Array, Array]:
    """Velocity at points from horseshoes of unit circulation.

    Biot and Savart: bound part (r1 × r2)/|r1 × r2|² r0·(r1/|r1| - r2/|r2|)/(4 pi); each leg to
    infinity along x gives (x × d)/|x × d|² (1 + dx/|d|)/(4 pi).

    Args:
        points: Where, (m, 3). [m]
        start: Inner ends of the bound vortices, (n, 3). [m]
        end: Outer ends, (n, 3). [m]
        core: Radius within which a leg's swirl fades to zero, (m, n) or one number. [m]

    Returns:
        x, y and z velocities, each (m, n). [1/m]

    Valid:
        Points away from the vortex itself; within `core` of a leg the swirl is smoothed.

    Source:
        [KP] eq. 12.20 and 10.115.

    Example:
        >>> point, a, b = np.array([[0.5, 0, 0]]), np.array([[0, -1.0, 0]]), np.array([[0, 1.0, 0]])
        >>> bool(horseshoe(point, a, b)[2][0, 0] < 0.0)
        True
    """
    ax, ay, az = (points[:, None, k] - start[None, :, k] for k in range(3))
    bx, by, bz = (points[:, None, k] - end[None, :, k] for k in range(3))
    soft = np.square(core) + TINY
    across_a, across_b = ay * ay + az * az, by * by + bz * bz
    long_a, long_b = np.sqrt(ax * ax + across_a + TINY), np.sqrt(bx * bx + across_b + TINY)
    cx, cy, cz = ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx
    run = end - start
    ua = (ax * run[:, 0] + ay * run[:, 1] + az * run[:, 2]) / long_a
    ub = (bx * run[:, 0] + by * run[:, 1] + bz * run[:, 2]) / long_b
    square = (run * run).sum(axis=1)
    bound = (ua - ub) / (cx * cx + cy * cy + cz * cz + soft * square)
    leg_a = -(1.0 + ax / long_a) / (across_a + soft)
    leg_b = (1.0 + bx / long_b) / (across_b + soft)
    scale = 0.25 / math.pi
    return (
        scale * bound * cx,
        scale * (bound * cy - leg_a * az - leg_b * bz),
        scale * (bound * cz + leg_a * ay + leg_b * by),
    )


def far_wash(points: Array, inner: Array, outer: Array) -> tuple[Array, Array]:
    """Velocity far behind, in the plane across the stream, from unit trailing pairs.

    Args:
        points: Where, (m, 2) as (y, z). [m]
        inner: Inner edges, (n, 2). [m]
        outer: Outer edges, (n, 2). [m]

    Returns:
        y and z velocities, each (m, n). [1/m]

    Source:
        [KP] sec. 8.2.1: two-dimensional vortices, full strength far behind.

    Example:
        >>> far_wash(np.zeros((1, 2)), np.array([[-1.0, 0]]), np.array([[1.0, 0]]))[1].round(3)
        array([[-0.318]])
    """
    ay, az = (points[:, None, k] - inner[None, :, k] for k in range(2))
    by, bz = (points[:, None, k] - outer[None, :, k] for k in range(2))
    a = ay * ay + az * az + TINY
    b = by * by + bz * bz + TINY
    scale = 0.5 / math.pi
    return scale * (az / a - bz / b), scale * (by / b - ay / a)
