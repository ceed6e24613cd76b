"""One step of Newton's method for a layer and the outer flow together, many cases at once.

The marching equations are eliminated along each lane, so that one equation a node in the mass
defect is left: a dense system of the size of the panel method's own.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_known import Block
from foamwright.aero.coupled_lanes import Array, Flows, Index, Lanes
from foamwright.aero.coupled_lines import Lines, lines_of
from foamwright.aero.coupled_panels import MassInfluence

NOSE_SHAPE = 2.24  # H of plane stagnation flow
CAP = 1.0  # the layer is turbulent at the tail's last station at the latest


@dataclass(frozen=True, slots=True)
class Step:
    """What a step of Newton's method wants to change, and what the state says now.

    Attributes:
        mass: Change of the mass defect, (case, node). [-]
        tau: Change of tau. [-]
        speed: Change of the speed. [-]
        exponent: Largest change of the exponent where a layer turns turbulent, one a case. [-]
        natural: Station at which each lane is turbulent by its own exponent; many for never. [-]
        lift: [-]
        drag: [-]
        moment: About the quarter chord. [-]
    """

    mass: Array
    tau: Array
    speed: Array
    exponent: Array
    natural: Array
    lift: Array
    drag: Array
    moment: Array


TAU, LEFT = 0, 1  # places in what an interval gives: tau, equation left, exponent, shear


class _March:
    """Carries speed, tau, exponent and shear from station to station, functions of all masses.

    With matrices the last column is the constant part; with numbers the changes themselves.
    """

    def __init__(self, lines: Lines, start: tuple[Array, Array, Array, Array]) -> None:
        given = [lines.tau, lines.left, lines.exponent, lines.shear]
        none = np.zeros_like(lines.tau.rest)
        factors, masses = np.zeros((*none.shape, 4, 5)), np.zeros((*none.shape, 4, 3))
        for k, line in enumerate(given):
            if line is None:
                continue
            near = (line.before_speed, line.before_tau, line.before_exponent, line.before_shear)
            factors[:, :, k] = np.stack([line.speed, *near], axis=-1)
            masses[:, :, k] = np.stack([line.mass, line.before_mass, line.rest], axis=-1)
            if k > LEFT:
                factors[:, :, k] += line.tau[..., None] * factors[:, :, TAU]
                masses[:, :, k] += line.tau[..., None] * masses[:, :, TAU]
        self.factors, self.masses = factors, masses
        self.state = np.stack([start[0], *start], axis=1)

    def on(
        self,
        j: int,
        here: Array,
        masses: tuple["_Mass", "_Mass"],
        inside: NDArray[np.bool_] | None = None,
    ) -> Array:
        """Go on over interval j; gives the equation that is left."""
        self.state[:, 0] = here
        found = self.factors[j] @ self.state
        masses[0].add(found, self.masses[j, :, :, 0])
        masses[1].add(found, self.masses[j, :, :, 1])
        found[:, :, -1] += self.masses[j, :, :, 2]
        left = found[:, LEFT].copy()
        found[:, LEFT] = found[:, TAU]
        found[:, TAU] = here
        if inside is None or inside.all():
            self.state[:, 1:] = found
        else:
            self.state[inside, 1:] = found[inside]
        return left

    @property
    def carried(self) -> tuple[Array, Array, Array]:
        """Speed, tau and shear [any] at the last station."""
        return self.state[:, 1], self.state[:, 2], self.state[:, 4]


@dataclass(frozen=True, slots=True)
class _Mass:
    """Where the mass terms of a relation go: into columns, or times known changes."""

    lane: Index
    columns: tuple[Index, ...]
    change: Array | None = None

    def add(self, total: Array, factor: Array) -> None:
        if self.change is not None:
            total[:, :, -1] += factor * self.change[:, None]
            return
        for column in self.columns:
            total[self.lane, :, column] += factor


def _nose(flow: MassInfluence, flows: Flows, lanes: Lanes, log_reynolds: Array) -> None:
    """Stagnation flow at the first two stations of every lane."""
    speed = lanes.speed[lanes.case, lanes.node[:2]]
    tau = 0.5 * (np.log(0.075 * lanes.distance[1] / speed[1]) - log_reynolds)
    for j in range(2):
        flows.tau[lanes.case, lanes.node[j]] = tau
        flows.mass[lanes.case, lanes.node[j]] = NOSE_SHAPE * np.exp(tau) * speed[j]


@dataclass(frozen=True, slots=True)
class _Parts:
    sides: Block
    side_lines: Lines
    wake: Block
    wake_lines: Lines
    share: Array
    excess: Array
    ends: Index


def _parts(flow: MassInfluence, flows: Flows, lanes: Lanes, log_reynolds: Array) -> _Parts:
    """Both sides, then the wake that begins with the sum of both."""
    cases, count = len(flows.mass), flow.count
    each = np.arange(2 * cases)
    station = np.arange(len(lanes.node))[:, None]
    trip = np.minimum(flows.trip, lanes.last - CAP)
    at = (lanes.case, lanes.node)
    sides = Block(
        tau=flows.tau[at],
        mass=flows.mass[at],
        speed=lanes.speed[at],
        step=np.maximum(np.diff(lanes.distance, axis=0, prepend=0.0), 1e-6),
        log_reynolds=log_reynolds,
        forced=np.asarray(np.clip(station - trip, 0.0, 1.0), dtype=np.float64),
    )
    side_lines = lines_of(sides)
    end = (lanes.last, each)
    theta = np.exp(sides.tau[end])
    whole = theta[:cases] + theta[cases:]
    share = theta / np.tile(whole, 2)
    root = side_lines.root[end]
    both = share * root
    start = both[:cases] + both[cases:]

    def joined(first: Array, values: Array) -> Array:
        return np.concatenate([first[None], values[:, count:].T])

    mass, speed = sides.mass[end], sides.speed[end]
    length = flow.wake_length[:, None]
    wake = Block(
        tau=joined(np.log(whole), flows.tau),
        mass=joined(mass[:cases] + mass[cases:], flows.mass),
        speed=joined(0.5 * (speed[:cases] + speed[cases:]), lanes.speed),
        step=np.broadcast_to(np.concatenate([length[:1], length]), (len(length) + 1, cases)),
        log_reynolds=log_reynolds[:cases],
        forced=None,
    )
    return _Parts(
        sides=sides,
        side_lines=side_lines,
        wake=wake,
        wake_lines=lines_of(wake, start),
        share=share,
        excess=root - np.tile(start, 2),
        ends=lanes.node[end],
    )


def _summed(values: Array) -> Array:
    half = len(values) // 2
    return values[:half] + values[half:]


def _into_wake(
    parts: _Parts, carried: tuple[Array, Array, Array]
) -> tuple[Array, Array, Array, Array]:
    """What both sides hand to the wake: mean speed, and sums weighted with momentum thickness."""
    speed, tau, shear = carried
    share, excess = parts.share[:, None], parts.excess[:, None]
    return (
        0.5 * _summed(speed),
        _summed(share * tau),
        np.zeros_like(_summed(speed)),
        _summed(share * (shear + excess * tau)),
    )


def _system(flow: MassInfluence, lanes: Lanes, parts: _Parts) -> Array:
    """The equations that are left, one a node, right-hand side in the last column."""
    cases, nodes = lanes.sign.shape
    count, each = flow.count, np.arange(2 * cases)
    wide = np.zeros((nodes, nodes + 1))
    wide[:, :-1] = flow.influence
    side_sign = np.ones((2 * cases, nodes + 1))
    side_sign[:, :-1] = lanes.sign[lanes.case]

    def row(node: Index) -> Array:
        return wide[node] * (side_sign[each, node][:, None] * side_sign)

    def shift(stagnation: Index) -> Array:
        first, second = lanes.shift[:, :, None]
        return (first * wide[stagnation] + second * wide[stagnation + 1]) * side_sign[:cases]

    matrix = np.zeros((cases, nodes, nodes + 1))
    start, block = row(lanes.node[1]), parts.sides
    moved = np.tile(shift(lanes.node[0, cases:]), (2, 1))
    tau = -(0.5 / block.speed[1])[:, None] * start
    tau -= (0.5 * lanes.side / lanes.distance[1])[:, None] * moved
    for j, here in ((0, row(lanes.node[0])), (1, start)):
        left = -tau - here / block.speed[j][:, None]
        left[each, lanes.node[j]] += 1.0 / block.mass[j]
        matrix[lanes.case, lanes.node[j]] = left
    none = np.zeros_like(start)
    march = _March(parts.side_lines, (start, tau, none, none))
    for j in range(2, len(lanes.node)):
        inside, node = lanes.inside[j], lanes.node[j]
        masses = _Mass(each, (node,)), _Mass(each, (lanes.node[j - 1],))
        left = march.on(j - 1, row(node), masses, inside)
        matrix[lanes.case[inside], node[inside]] = left[inside]
    one = each[:cases]
    behind = _March(parts.wake_lines, _into_wake(parts, march.carried))
    near: tuple[Index, ...] = (parts.ends[:cases], parts.ends[cases:])
    for j in range(len(flow.wake_length)):
        node = np.full(cases, count + j)
        here = row(np.tile(node, 2))[:cases]
        matrix[:, count + j] = behind.on(j, here, (_Mass(one, (node,)), _Mass(one, near)))
        near = (node,)
    return matrix


def _changes(
    flow: MassInfluence, lanes: Lanes, parts: _Parts, mass: Array, speed: Array
) -> tuple[Array, Array]:
    """Changes of tau at all nodes, and of the exponent at the stations."""
    cases, count = len(mass), flow.count
    at = (lanes.case, lanes.node)
    masses, speeds, block = mass[at], speed[at][..., None], parts.sides
    stagnation, each = lanes.node[0, cases:], np.arange(cases)
    signed = speed * lanes.sign
    moved = (
        lanes.shift[0] * signed[each, stagnation] + lanes.shift[1] * signed[each, stagnation + 1]
    )
    first = -0.5 * speeds[1, :, 0] / block.speed[1]
    first = first - 0.5 * lanes.side / lanes.distance[1] * np.tile(moved, 2)
    taus, exponents = np.zeros(lanes.node.shape), np.zeros(lanes.node.shape)
    taus[:2] = first
    none = np.zeros((2 * cases, 1))
    march, lane = _March(parts.side_lines, (speeds[1], first[:, None], none, none)), each
    for j in range(2, len(lanes.node)):
        pair = _Mass(lane, (), masses[j]), _Mass(lane, (), masses[j - 1])
        march.on(j - 1, speeds[j], pair, lanes.inside[j])
        taus[j], exponents[j] = march.state[:, 2, 0], march.state[:, 3, 0]
    result = np.zeros_like(mass)
    where = np.broadcast_to(lanes.case, lanes.node.shape)[lanes.inside]
    result[where, lanes.node[lanes.inside]] = taus[lanes.inside]
    behind = _March(parts.wake_lines, _into_wake(parts, march.carried))
    near = mass[each, parts.ends[:cases]] + mass[each, parts.ends[cases:]]
    for j in range(len(flow.wake_length)):
        far = mass[:, count + j]
        behind.on(j, speed[:, count + j, None], (_Mass(lane, (), far), _Mass(lane, (), near)))
        result[:, count + j], near = behind.state[:, 2, 0], far
    return result, exponents


def _solved(matrix: Array) -> Array:
    """Changes of the mass defect; no number where a lost case's matrix is singular."""
    try:
        found = np.linalg.solve(matrix[:, :, :-1], -matrix[:, :, -1:])
    except np.linalg.LinAlgError:
        if len(matrix) == 1:
            return np.full(matrix.shape[:2], np.nan)
        return np.concatenate([_solved(one[None]) for one in matrix])
    return np.asarray(found[:, :, 0], dtype=np.float64)


def newton_step(flow: MassInfluence, flows: Flows, lanes: Lanes, reynolds: Array) -> Step:
    """What Newton's method would change.

    Args:
        flow: Outer flow.
        flows: The state; its first stations are set to stagnation flow.
        lanes: Both sides laid out.
        reynolds: On chord, one a case. [-]

    Returns:
        The step, with lift and drag of the present state.

    Source:
        Newton's method; drag by Squire & Young at the end of the wake.

    Example:
        >>> newton_step(flow, flows, lanes, np.array([2e5])).drag  # doctest: +SKIP
        array([0.0112])
    """
    log_reynolds = np.log(np.tile(reynolds, 2))
    _nose(flow, flows, lanes, log_reynolds)
    parts = _parts(flow, flows, lanes, log_reynolds)
    matrix = _system(flow, lanes, parts)
    nodes = np.arange(matrix.shape[1])
    matrix[:, nodes, nodes] += 1e-12
    mass = _solved(matrix)
    speed = ((mass * lanes.sign) @ flow.influence.T) * lanes.sign
    tau, exponents = _changes(flow, lanes, parts, mass, speed)
    ramp = parts.side_lines.turbulent
    turning = np.zeros_like(ramp, dtype=bool)
    turning[1:] = (ramp[1:] > 0.0) & (ramp[:-1] < 1.0) & lanes.inside[1:]
    largest = np.where(turning, np.abs(exponents), 0.0).max(0)
    cases = len(mass)
    through = (ramp >= 1.0) & lanes.inside
    natural = np.where(through.any(0), through.argmax(0), len(ramp)).astype(float)
    wake = parts.wake
    shape = parts.wake_lines.shape[-1]
    outline = lanes.signed[:, : flow.count]
    middle = 0.5 * (outline[:, 1:] + outline[:, :-1])
    return Step(
        mass=mass,
        tau=tau,
        speed=speed,
        exponent=np.maximum(largest[:cases], largest[cases:]),
        natural=natural,
        lift=2.0 * middle @ flow.length,
        drag=np.asarray(2.0 * np.exp(wake.tau[-1]) * wake.speed[-1] ** (0.5 * (shape + 5.0))),
        moment=(1.0 - middle * middle) @ flow.lever,
    )
