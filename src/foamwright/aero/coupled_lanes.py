"""Lanes of stations from the stagnation point along both sides of an outline, many cases."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_panels import MassInfluence

type Array = NDArray[np.float64]
type Index = NDArray[np.intp]

LEAST_SPEED = 0.01  # of the stream; keeps logarithms finite at the stagnation point


@dataclass(slots=True)
class Flows:
    """The state of several cases, changed from step to step.

    Attributes:
        mass: U delta* at the nodes, positive, (case, node). [-]
        tau: ln of the momentum thickness there. [-]
        stagnation: Node below the stagnation point. [-]
        trip: Station, one a lane, beyond which the layer is turbulent by force. [-]
    """

    mass: Array
    tau: Array
    stagnation: Index
    trip: Array


@dataclass(frozen=True, slots=True)
class Lanes:
    """Both sides of all cases as lanes from the stagnation point: upper sides, then undersides.

    Attributes:
        case: Case of each lane. [-]
        node: (station, lane). [-]
        inside: Whether a lane has that station.
        last: Last station of each lane. [-]
        distance: From the stagnation point, (station, lane). [-]
        side: 1 upper, -1 lower. [-]
        sign: Sign of the speed at each node, (case, node). [-]
        signed: Signed speed at the nodes. [-]
        speed: Speed at the nodes, positive. [-]
        shift: Slope of the stagnation point's place along its two nodes' speeds, (2, case). [-]
    """

    case: Index
    node: Index
    inside: NDArray[np.bool_]
    last: Index
    distance: Array
    side: Array
    sign: Array
    signed: Array
    speed: Array
    shift: Array


def signs(flow: MassInfluence, stagnation: Index) -> Array:
    """Sign of the speed at every node.

    Args:
        flow: Outer flow.
        stagnation: Node below the stagnation point, one a case. [-]

    Returns:
        -1 on the underside, 1 elsewhere, (case, node). [-]

    Source:
        Definition.

    Example:
        >>> signs(flow, np.array([48])).shape  # doctest: +SKIP
        (1, 111)
    """
    nodes = np.arange(len(flow.base))
    return np.where((nodes <= stagnation[:, None]) & (nodes < flow.count), -1.0, 1.0)


def stagnation_nodes(flow: MassInfluence, signed: Array) -> Index:
    """Node below the change of sign of the speed nearest the nose.

    Args:
        flow: Outer flow.
        signed: Signed speed, (case, node). [-]

    Returns:
        One a case. [-]

    Source:
        Definition.

    Example:
        >>> stagnation_nodes(flow, signed)  # doctest: +SKIP
        array([46])
    """
    speed = signed[:, : flow.count]
    turns = (speed[:, :-1] <= 0.0) & (speed[:, 1:] > 0.0)
    away = np.abs(np.arange(flow.count - 1) - flow.nose)
    return np.where(turns, -away, -(10**6)).argmax(1)


def lanes_of(flow: MassInfluence, signed: Array, stagnation: Index) -> Lanes:
    """Lay both sides out from the stagnation point.

    Args:
        flow: Outer flow.
        signed: Signed speed, (case, node). [-]
        stagnation: Node below the stagnation point, one a case. [-]

    Returns:
        The lanes.

    Source:
        Definition.

    Example:
        >>> lanes_of(flow, signed, stagnation).side.shape  # doctest: +SKIP
        (2,)
    """
    cases, count = len(signed), flow.count
    arc = np.concatenate([[0.0], np.cumsum(flow.length)])
    each = np.arange(cases)
    low, high = signed[each, stagnation], signed[each, stagnation + 1]
    gap = np.where(np.abs(high - low) < 1e-9, 1e-9, high - low)
    share, width = np.clip(-low / gap, -0.9, 1.9), flow.length[stagnation]
    free = (share > -0.9) & (share < 1.9)
    shift = np.where(free, np.stack([-width * high, width * low]) / gap**2, 0.0)
    start = arc[stagnation] + share * width
    size = np.concatenate([count - 1 - stagnation, stagnation + 1])
    station = np.arange(int(size.max()))[:, None]
    node = np.concatenate([stagnation[None] + 1 + station, stagnation[None] - station], axis=1)
    node, inside = np.clip(node, 0, count - 1), station < size
    side = np.concatenate([np.ones(cases), -np.ones(cases)])
    distance = np.maximum(side * (arc[node] - np.tile(start, 2)), 1e-5)
    last = size - 1
    end = distance[last, np.arange(2 * cases)]
    sign = signs(flow, stagnation)
    return Lanes(
        case=np.tile(each, 2),
        node=node,
        inside=inside,
        last=last,
        distance=np.where(inside, distance, end + 1e-3 * (station - last)),
        side=side,
        sign=sign,
        signed=signed,
        speed=np.maximum(signed * sign, LEAST_SPEED),
        shift=shift,
    )
