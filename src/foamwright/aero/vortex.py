"""Velocity induced by horseshoe vortices whose legs run straight back."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

BLOCK = 16384  # numbers in a working array: with six of them a core's own memory is not left
QUARTER = 0.25 / math.pi
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


@dataclass(frozen=True, slots=True)
class Horseshoes:
    """Horseshoes laid out so that what they do to many points is a few matrix products.

    Attributes:
        start: Inner ends of the bound vortices, (n, 3). [m]
        end: Outer ends, (n, 3). [m]
        square: Length of the bound vortex, squared. [m²]
        along: Dotted with (x, y, z, 1): from start to the point along the bound vortex. [m²]
        cross: Rows of the same kind, cross product with the bound vortex: x, along the normal and
            along the panel. [m²]
        legs: For either leg: squared distance across it, and its arm about the normal. [m²], [m]
    """

    start: Array
    end: Array
    square: Array
    along: Array
    cross: tuple[Array, Array, Array]
    legs: tuple[tuple[Array, Array], tuple[Array, Array]]


def horseshoes_of(start: Array, end: Array) -> Horseshoes:
    """Lay out horseshoes for `normal_wash`.

    Args:
        start: Inner ends of the bound vortices, (n, 3). [m]
        end: Outer ends, (n, 3). [m]

    Returns:
        The layout. [m, m²]

    Source:
        As `horseshoe`, every term that is bilinear in point and vortex written as such.

    Example:
        >>> horseshoes_of(np.zeros((1, 3)), np.array([[0.0, 2.0, 0.0]])).square
        array([4.])
    """
    sx, sy, sz = start.T
    rx, ry, rz = run = (end - start).T
    none, one = np.zeros_like(sx), np.ones_like(sx)
    flat, steep = sx * rz - sz * rx, sy * rx - sx * ry

    def leg(y: Array, z: Array) -> tuple[Array, Array]:
        return np.stack([one, -2.0 * y, -2.0 * z, y * y + z * z]), np.stack([one, -y, z])

    return Horseshoes(
        start=start,
        end=end,
        square=(run * run).sum(axis=0),
        along=np.stack([rx, ry, rz, -(start.T * run).sum(axis=0)]),
        cross=(
            np.stack([none, rz, -ry, sz * ry - sy * rz]),
            np.stack([rx, -rz, ry, -rx, flat, steep]),
            np.stack([rx, -rz, -ry, rx, flat, -steep]),
        ),
        legs=(leg(sy, sz), leg(end[:, 1], end[:, 2])),
    )


def normal_wash(
    points: Array, normals: Array, vortices: Horseshoes, *, core: Array | float = 0.0
) -> Array:
    """Velocity along normals at points from horseshoes of unit circulation.

    As `horseshoe`, a strip of rows at a time, which is several times quicker for many panels.

    Args:
        points: Where, (m, 3). [m]
        normals: Unit vectors without x, (m, 3). [-]
        vortices: The horseshoes.
        core: Radius within which a leg's swirl fades to zero, (n) or one number. [m]

    Returns:
        Velocities, (m, n). [1/m]

    Valid:
        As `horseshoe`; rounding 1e-8 of the largest.

    Source:
        [KP] eq. 12.20 and 10.115.

    Example:
        >>> up = np.array([[0.0, 0.0, 1.0]])
        >>> pair = horseshoes_of(np.array([[0, -1.0, 0]]), np.array([[0, 1.0, 0]]))
        >>> bool(normal_wash(np.array([[0.5, 0.0, 0.0]]), up, pair)[0, 0] < 0.0)
        True
    """
    x, y, z = points.T
    ny, nz = normals[:, 1], normals[:, 2]
    one = np.ones_like(x)
    near = (
        np.stack([x, y, z, one], axis=1),
        np.stack([ny * z, ny * x, nz * x, nz * y, ny, nz], axis=1),
        np.stack([nz * z, nz * x, ny * x, ny * y, nz, ny], axis=1),
        np.stack([y * y + z * z, y, z, one], axis=1),
        np.stack([nz * y - ny * z, nz, ny], axis=1),
    )
    count = len(vortices.square)
    soft = np.broadcast_to(np.square(core) + TINY, (count,))
    wash = np.empty((len(points), count))
    step = max(1, BLOCK // max(count, 1))
    room = np.empty((5, min(step, len(points)), count))
    for first in range(0, len(points), step):
        rows = slice(first, first + step)
        block = wash[rows]
        _wash(tuple(n[rows] for n in near), vortices, soft, room[:, : len(block)], out=block)
    return wash


def _wash(near: tuple[Array, ...], v: Horseshoes, soft: Array, room: Array, *, out: Array) -> None:
    """One block of rows of `normal_wash`, everything in place."""
    a, b, far_start, far_end, c = room
    _leg(near, v.end[:, 0], v.legs[1], soft, (a, far_end), out=out)
    _leg(near, v.start[:, 0], v.legs[0], soft, (a, far_start), out=b)
    out -= b
    # Bound vortex: r0·(r1/|r1| - r2/|r2|) (r1 × r2)·n / |r1 × r2|²
    np.matmul(near[0], v.along, out=a)
    np.divide(a, far_start, out=b)
    a -= v.square
    a /= far_end
    b -= a
    np.matmul(near[1], v.cross[1], out=a)
    b *= a
    np.multiply(a, a, out=c)
    for place, row in ((near[0], v.cross[0]), (near[2], v.cross[2])):
        np.matmul(place, row, out=a)
        a *= a
        c += a
    c += soft * v.square
    b /= c
    out -= b
    out *= QUARTER


def _leg(
    near: tuple[Array, ...], x: Array, leg: tuple[Array, Array], soft: Array,
    room: tuple[Array, Array], *, out: Array,
) -> None:  # fmt: skip
    """Swirl of the legs from x along the normals into `out`; distances of their heads."""
    across, far = room
    np.matmul(near[3], leg[0], out=across)
    np.subtract(near[0][:, :1], x, out=out)
    np.multiply(out, out, out=far)
    far += across
    far += TINY
    np.sqrt(far, out=far)
    out /= far
    out += 1.0
    across += soft
    out /= across
    np.matmul(near[4], leg[1], out=across)
    out *= across


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
