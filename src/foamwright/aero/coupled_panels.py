"""Outer flow of an outline and its wake, and what a boundary layer's displacement does to it.

Nodes carry linear vorticity; panels and wake carry constant sources whose strength is the growth of
the mass defect m = U delta*. Speeds at all nodes are then base (alpha) + influence m.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

TWO_PI = 2.0 * math.pi
INSIDE = 0.1  # of the shorter tail panel: how far inside the tail air is held at rest; assumed
WAKE_NODES = 14
WAKE_LENGTH = 1.0  # chords behind the tail over which the layer is followed; assumed enough


@dataclass(frozen=True, slots=True)
class MassInfluence:
    """Speeds at the nodes of an outline (tail, underside, nose, upper side, tail) and its wake.

    Signed along that round: negative on the underside.

    Attributes:
        base: (node, 2): speed at 0 and at 90 degrees. [-]
        influence: (node, node): speed per mass defect, both signed. [-]
        length: Of each panel. [-]
        wake_length: Of each wake panel. [-]
        nose: Foremost node. [-]
        lever: Moment about the quarter chord of unit pressure on each panel. [-]
    """

    base: Array
    influence: Array
    length: Array
    wake_length: Array
    nose: int
    lever: Array

    @property
    def count(self) -> int:
        """Nodes on the outline [-]."""
        return len(self.length) + 1


def sharp_tail(points: Array) -> Array:
    """An outline with its blunt tail closed by turning both sides about the nose.

    Args:
        points: Tail, underside, nose, upper side, tail. [-]

    Returns:
        The same, both ends in one point. [-]

    Source:
        Definition; the base drag of a blunt tail is added elsewhere.

    Example:
        >>> sharp_tail(np.array([(1, -0.01), (0, 0), (1, 0.01)], dtype=float))[0].round(6).tolist()
        [1.0, 0.0]
    """
    closed = points.copy()
    gap, nose = points[-1, 1] - points[0, 1], int(np.argmin(points[:, 0]))
    closed[nose:, 1] -= 0.5 * gap * points[nose:, 0]
    closed[:nose, 1] += 0.5 * gap * points[:nose, 0]
    closed[0] = closed[-1] = 0.5 * (closed[0] + closed[-1])
    return closed


@dataclass(frozen=True, slots=True)
class _Panels:
    x: Array
    y: Array
    length: Array
    cosine: Array
    sine: Array

    def local(self, x: Array, y: Array) -> tuple[Array, Array]:
        across, up = x[:, None] - self.x[None, :-1], y[:, None] - self.y[None, :-1]
        return (
            across * self.cosine + up * self.sine,
            -across * self.sine + up * self.cosine,
        )


def _wake_places(panels: _Panels) -> tuple[Array, Array, Array]:
    """Nodes of the wake along the bisector of the tail, lengths in geometric growth."""
    ends = np.array(
        [
            [-panels.cosine[0], panels.cosine[-1]],
            [-panels.sine[0], panels.sine[-1]],
        ]
    )
    along = ends.sum(axis=1)
    along = along / float(np.hypot(*along))
    first = 0.5 * float(panels.length[0] + panels.length[-1])
    low, high = 1.0, 3.0
    for _ in range(60):
        rate = 0.5 * (low + high)
        far = first * (rate**WAKE_NODES - 1.0) / (rate - 1.0)
        low, high = (rate, high) if far < WAKE_LENGTH else (low, rate)
    length = np.asarray(first * (0.5 * (low + high)) ** np.arange(WAKE_NODES), dtype=np.float64)
    reach = np.concatenate([[0.0], np.cumsum(length)])
    tail = np.array([panels.x[0], panels.y[0]])
    return tail + reach[:, None] * along, length, along


def _stream_matrices(panels: _Panels) -> tuple[Array, Array]:
    """Stream function at the nodes of unit node vorticity, and of unit panel sources."""
    x, y = panels.local(panels.x, panels.y)
    start, end = x, x - panels.length
    log = [np.log(np.maximum(t * t + y * y, 1e-20)) for t in (start, end)]
    safe = np.where(np.abs(y) > 1e-14, y, 1.0)

    def whole(t: Array, square: Array) -> Array:
        turn = np.where(np.abs(y) > 1e-14, y * np.arctan(t / safe), 0.0)
        return 0.5 * t * square - t + turn

    even = whole(start, log[0]) - whole(end, log[1])
    quarter = [0.25 * np.exp(v) * (v - 1.0) for v in log]
    odd = x * even - (quarter[0] - quarter[1])
    count = len(panels.x)
    vortex = np.zeros((count, count))
    vortex[:, :-1] += (even - odd / panels.length) / TWO_PI
    vortex[:, 1:] += (odd / panels.length) / TWO_PI

    def potential(t: Array, square: Array) -> Array:
        return t * np.arctan2(t, -y) + 0.5 * y * square

    source = (potential(start, log[0]) - potential(end, log[1])) / TWO_PI
    return vortex, source


def _wake_sources(panels: _Panels, wake: tuple[Array, Array, Array]) -> Array:
    """Stream function at the nodes of unit sources on the wake's panels."""
    places, length, along = wake
    across = panels.x[:, None] - places[None, :-1, 0]
    up = panels.y[:, None] - places[None, :-1, 1]
    x, y = across * along[0] + up * along[1], -across * along[1] + up * along[0]

    def potential(t: Array) -> Array:
        square = np.log(np.maximum(t * t + y * y, 1e-20))
        return t * np.arctan2(-y, -t) + 0.5 * y * square

    return (potential(x) - potential(x - length)) / TWO_PI


def _growth(panels: _Panels, length: Array) -> Array:
    """Source strength of every panel from the mass defect at the nodes."""
    count, wake = len(panels.x), len(length)
    rows = np.zeros((count - 1 + wake, count + wake))
    k = np.arange(count - 1)
    rows[k, k + 1], rows[k, k] = 1.0 / panels.length, -1.0 / panels.length
    first = 1.0 / length[0]
    rows[count - 1, [count, count - 1, 0]] = first, -first, first
    k = np.arange(1, wake)
    rows[count - 1 + k, count + k], rows[count - 1 + k, count + k - 1] = (
        1.0 / length[k],
        -1.0 / length[k],
    )
    return rows


def _speeds(
    panels: _Panels, wake: tuple[Array, Array, Array], reach: Array, least: Array
) -> tuple[Array, Array]:
    """Speed along the wake's line, at distances behind the tail, of unit vorticity and sources."""
    places, length, along = wake
    at = places[0] + reach[:, None] * along
    x, y = panels.local(at[:, 0], at[:, 1])
    start, end = x, x - panels.length
    flat = np.abs(y) < 1e-12
    safe = np.where(flat, 1.0, y)
    angle = np.where(flat, 0.0, np.arctan(start / safe) - np.arctan(end / safe))
    log = 0.5 * np.log((start**2 + y * y) / (end**2 + y * y))
    tilt = (x * angle - y * log) / panels.length
    rise = (x * log - (panels.length - y * angle)) / panels.length
    cosine = panels.cosine * along[0] + panels.sine * along[1]
    sine = -panels.sine * along[0] + panels.cosine * along[1]
    cosine, sine = cosine / TWO_PI, -sine / TWO_PI
    vortex = np.zeros((len(reach), len(panels.x)))
    vortex[:, :-1] += (angle - tilt) * cosine + (log - rise) * sine
    vortex[:, 1:] += tilt * cosine + rise * sine
    source = np.zeros((len(reach), len(panels.length) + len(length)))
    source[:, : len(panels.length)] = log * cosine - angle * sine
    edge = np.concatenate([[0.0], np.cumsum(length)])
    near, far = (np.abs(reach[:, None] - at[None]) for at in (edge[:-1], edge[1:]))
    near, far = (np.where(gap < 1e-12, least[:, None], gap) for gap in (near, far))
    source[:, len(panels.length) :] = np.log(near / far) / TWO_PI
    return vortex, source


def _arms(panels: _Panels) -> Array:
    x, y = (0.5 * (v[1:] + v[:-1]) for v in (panels.x, panels.y))
    return np.asarray((x - 0.25) * panels.cosine + y * panels.sine)


def mass_influence(points: Array) -> MassInfluence:
    """Outer flow of an outline with a sharp tail and of its wake.

    Args:
        points: Tail, underside, nose, upper side, tail. [-]

    Returns:
        Base speeds and the influence of the mass defect.

    Source:
        Stream function of linear vorticity and sources [KP] ch. 10 and 11; Kutta condition.

    Example:
        >>> mass_influence(sharp_tail(points)).count  # doctest: +SKIP
        97
    """
    x, y = points.T
    run, rise = np.diff(x), np.diff(y)
    length = np.hypot(run, rise)
    panels = _Panels(x, y, length, run / length, rise / length)
    wake = _wake_places(panels)
    count, more = len(x), len(wake[1])
    vortex, source = _stream_matrices(panels)
    whole = np.zeros((count + 1, count + 1))
    whole[:count, :count], whole[:count, count] = vortex, -1.0
    # The last node repeats the first; instead, no flow inside the tail's corner along its bisector.
    inside = np.array([-INSIDE * float(min(panels.length[0], panels.length[-1]))])
    by_corner, from_corner = _speeds(panels, wake, inside, np.abs(inside))
    whole[count - 1] = 0.0
    whole[count - 1, :count] = by_corner[0]
    whole[count, [0, count - 1]] = 1.0
    sources = np.zeros((count + 1, count - 1 + more))
    sources[:count] = np.concatenate([source, _wake_sources(panels, wake)], axis=1)
    sources[count - 1] = from_corner[0]
    right = np.zeros((count + 1, 2))
    right[: count - 1] = np.column_stack([-y, x])[:-1]
    right[count - 1] = -wake[2]
    both = np.linalg.solve(whole, np.concatenate([right, -sources], axis=1))
    solved = np.asarray(both[:count], dtype=np.float64)
    growth = _growth(panels, wake[1])
    own, mass = solved[:, :2], solved[:, 2:] @ growth
    half = 0.5 * np.minimum(wake[1], np.append(wake[1][1:], wake[1][-1]))
    by_vortex, by_source = _speeds(panels, wake, np.cumsum(wake[1]), half)
    return MassInfluence(
        base=np.concatenate([own, by_vortex @ own + wake[2]]),
        influence=np.concatenate([mass, by_vortex @ mass + by_source @ growth]),
        length=length,
        wake_length=wake[1],
        nose=int(np.argmin(x)),
        lever=length * _arms(panels),
    )
