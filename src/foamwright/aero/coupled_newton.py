"""One step of Newton's method for a layer and the outer flow together, many cases at once.

The marching equations are eliminated along each lane, so that one equation a node in the mass
defect is left: a dense system of the size of the panel method's own.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_known import Block
from foamwright.aero.coupled_lanes import Array, Flows, Index, Lanes
from foamwright.aero.coupled_lines import Line, Lines, lines_of
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
    """

    mass: Array
    tau: Array
    speed: Array
    exponent: Array
    natural: Array
    lift: Array
    drag: Array


type _Carried = tuple[Array, Array, Array, Array]  # speed, tau, exponent, shear


class _March:
    """Carries tau, exponent and shear from station to station as functions of all mass defects.

    With matrices the last column is the constant part; with numbers the changes themselves.
    """

    def __init__(self, lines: Lines, start: _Carried) -> None:
        self.lines, self.before = lines, start
        self._terms = {id(line): self._present(line) for line in self._all()}

    def _all(self) -> list[Line]:
        lines = self.lines
        more = [] if lines.exponent is None else [lines.exponent]
        return [lines.tau, lines.left, lines.shear, *more]

    @staticmethod
    def _present(line: Line) -> list[tuple[int, Array]]:
        """Coefficients that are not zero everywhere, with the place of what they multiply."""
        near = (line.before_speed, line.before_tau, line.before_exponent, line.before_shear)
        return [(k, factor) for k, factor in enumerate(near) if factor.any()]

    def _of(
        self, line: Line, j: int, masses: tuple["_Mass", "_Mass"], far: tuple[Array, ...]
    ) -> Array:
        """One relation at one interval; far holds the speed, and tau where it is known."""
        total = line.speed[j][:, None] * far[0]
        for k, factor in self._terms[id(line)]:
            total += factor[j][:, None] * self.before[k]
        if len(far) > 1:
            total += line.tau[j][:, None] * far[1]
        total[:, -1] += line.rest[j]
        masses[0].add(total, line.mass[j])
        masses[1].add(total, line.before_mass[j])
        return total

    def on(self, j: int, here: Array, masses: tuple["_Mass", "_Mass"],
           inside: NDArray[np.bool_] | None = None) -> Array:  # fmt: skip
        """Go on over interval j; gives the equation that is left."""
        lines, before = self.lines, self.before
        tau = self._of(lines.tau, j, masses, (here,))
        left = self._of(lines.left, j, masses, (here,))
        exponent = before[2]
        if lines.exponent is not None:
            exponent = self._of(lines.exponent, j, masses, (here, tau))
        new = (here, tau, exponent, self._of(lines.shear, j, masses, (here, tau)))
        if inside is None or inside.all():
            self.before = new
        else:
            keep = inside[:, None]
            self.before = (
                np.where(keep, new[0], before[0]),
                np.where(keep, new[1], before[1]),
                np.where(keep, new[2], before[2]),
                np.where(keep, new[3], before[3]),
            )
        return left


@dataclass(frozen=True, slots=True)
class _Mass:
    """Where the mass terms of a relation go: into columns, or times known changes."""

    lane: Index
    columns: tuple[Index, ...]
    change: Array | None = None

    def add(self, total: Array, factor: Array) -> None:
        if self.change is not None:
            total[:, -1] += factor * self.change
            return
        for column in self.columns:
            total[self.lane, column] += factor


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


def _into_wake(parts: _Parts, before: _Carried) -> _Carried:
    """What both sides hand to the wake: mean speed, and sums weighted with momentum thickness."""
    speed, tau, _, shear = before
    share, excess = parts.share[:, None], parts.excess[:, None]
    none = np.zeros_like(_summed(speed))
    return (
        0.5 * _summed(speed),
        _summed(share * tau),
        none,
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
    behind = _March(parts.wake_lines, _into_wake(parts, march.before))
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
        taus[j], exponents[j] = march.before[1][:, 0], march.before[2][:, 0]
    result = np.zeros_like(mass)
    where = np.broadcast_to(lanes.case, lanes.node.shape)[lanes.inside]
    result[where, lanes.node[lanes.inside]] = taus[lanes.inside]
    behind = _March(parts.wake_lines, _into_wake(parts, march.before))
    near = mass[each, parts.ends[:cases]] + mass[each, parts.ends[cases:]]
    for j in range(len(flow.wake_length)):
        far = mass[:, count + j]
        behind.on(j, speed[:, count + j, None], (_Mass(lane, (), far), _Mass(lane, (), near)))
        result[:, count + j], near = behind.before[1][:, 0], far
    return result, exponents


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
    solved = np.linalg.solve(matrix[:, :, :-1], -matrix[:, :, -1:])
    mass = np.asarray(solved[:, :, 0], dtype=np.float64)
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
    return Step(
        mass=mass,
        tau=tau,
        speed=speed,
        exponent=np.maximum(largest[:cases], largest[cases:]),
        natural=natural,
        lift=((outline[:, 1:] + outline[:, :-1]) * flow.length).sum(1),
        drag=np.asarray(2.0 * np.exp(wake.tau[-1]) * wake.speed[-1] ** (0.5 * (shape + 5.0))),
    )
