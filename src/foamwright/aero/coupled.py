"""Section drag from a boundary layer that is solved together with the outer flow.

The layer displaces the outer flow and so shapes its own pressure: only so does a laminar separation
bubble find its length and its cost. Nothing here is fitted to a measured section.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_closures import smooth_amplification
from foamwright.aero.coupled_lanes import (
    LEAST_SPEED,
    Flows,
    Index,
    Lanes,
    lanes_of,
    signs,
    stagnation_nodes,
)
from foamwright.aero.coupled_lines import CRITICAL
from foamwright.aero.coupled_newton import newton_step
from foamwright.aero.coupled_panels import MassInfluence

type Array = NDArray[np.float64]

FIRST_STEPS, MORE_STEPS = 36, 36  # of Newton's method, from scratch and from a neighbour
EVERY = 4  # one in so many angles is tried from scratch, the others from solved neighbours
MOST_STEPS = 200  # in all
SETTLED = 0.01  # largest relative change that counts as solved
LARGEST = 0.4  # relative change that one step may make
LARGEST_EXPONENT = 2.0  # change of the exponent where a layer turns that one step may make
WALK, WALK_BELOW = 2.0, 0.6  # stations that a trip goes back once changes are below
FAR = 1e4  # stations; no trip
SLACK = 2  # nodes by which the stagnation point may leave its place before lanes are laid anew


@dataclass(frozen=True, slots=True)
class CoupledPolar:
    """Lift, drag and moment on a grid of Reynolds numbers and angles.

    Attributes:
        lift: (Re, angle). [-]
        drag: (Re, angle). [-]
        moment: About the quarter chord, (Re, angle). [-]
        settled: Whether the case was solved; where not, lift and drag mean nothing.
    """

    lift: Array
    drag: Array
    moment: Array
    settled: NDArray[np.bool_]


@dataclass(slots=True)
class _Cases:
    """Cases of angle and Reynolds number with what is known of them."""

    alpha: Array
    reynolds: Array
    flows: Flows
    lift: Array
    drag: Array
    moment: Array
    settled: NDArray[np.bool_]


def _first_layer(lanes: Lanes, reynolds: Array) -> tuple[Array, Array, Array]:
    """Laminar by Thwaites, turned turbulent by force where it would separate.

    Gives momentum thickness, H, and the station of the change.
    """
    s, speed = lanes.distance, lanes.speed[lanes.case, lanes.node]
    fifth = speed**5
    step = np.diff(s, axis=0, prepend=0.0)
    run = np.cumsum(0.5 * (fifth[1:] + fifth[:-1]) * step[1:], axis=0)
    total = fifth[0] * s[0] / 6.0 + np.concatenate([np.zeros((1, len(reynolds))), run])
    square = 0.45 * total / speed**6 / reynolds
    slope = np.gradient(speed, axis=0) / np.maximum(np.gradient(s, axis=0), 1e-9)
    pressure = square * reynolds * slope
    held = np.clip(pressure, -0.085, 0.1)
    shape = np.where(
        held > 0.0, 2.61 - 3.75 * held + 5.24 * held**2, 2.088 + 0.0731 / (held + 0.14)
    )
    theta = np.sqrt(square)
    separated = pressure < -0.085
    separated[:2] = False
    growth = smooth_amplification(shape, np.log(speed * theta * reynolds)) / theta
    rise = np.cumsum(0.5 * (growth[1:] + growth[:-1]) * step[1:], axis=0)
    turned = separated.copy()
    turned[1:] |= rise > CRITICAL
    turned = np.maximum.accumulate(turned, axis=0)
    for j in range(1, len(theta)):
        local = np.maximum(speed[j] * theta[j - 1] * reynolds, 50.0)
        gain = np.clip(np.log(speed[j] / speed[j - 1]), -0.1, 0.1)
        grown = theta[j - 1] * np.exp(-3.8 * gain) + 0.0074 * local**-0.268 * step[j]
        kept = np.clip(grown, 0.7 * theta[j - 1], 1.4 * theta[j - 1])
        theta[j] = np.where(turned[j], kept, theta[j])
    place = np.where(turned.any(0), turned.argmax(0), lanes.last)
    return theta, np.where(turned, 1.9, np.minimum(shape, 3.5)), place.astype(float)


def _started(flow: MassInfluence, alpha: Array, reynolds: Array) -> Flows:
    """A first guess: attached flow, displacement not yet felt."""
    signed = np.stack([np.cos(alpha), np.sin(alpha)], axis=1) @ flow.base.T
    stagnation = stagnation_nodes(flow, signed)
    lanes = lanes_of(flow, signed, stagnation)
    theta, shape, place = _first_layer(lanes, np.tile(reynolds, 2))
    cases, count = len(alpha), flow.count
    mass, tau = np.zeros_like(signed), np.zeros_like(signed)
    inside = lanes.inside
    at = np.broadcast_to(lanes.case, inside.shape)[inside], lanes.node[inside]
    mass[at] = (theta * shape * lanes.speed[lanes.case, lanes.node])[inside]
    tau[at] = np.log(theta)[inside]
    end = theta[lanes.last, np.arange(2 * cases)]
    tail = (end[:cases] + end[cases:])[:, None]
    tau[:, count:], mass[:, count:] = np.log(tail), 1.4 * tail * lanes.speed[:, count:]
    return Flows(mass, tau, stagnation, place)


def _relaid(flow: MassInfluence, flows: Flows, signed: Array) -> None:
    """Follow the stagnation point, but not for a node: to and fro would never end."""
    found = stagnation_nodes(flow, signed)
    moved = np.where(np.abs(found - flows.stagnation) >= SLACK, found, flows.stagnation)
    shift = (flows.stagnation - moved).astype(float)
    flows.trip = flows.trip + np.concatenate([shift, -shift])
    flows.stagnation = moved


def _picked(flows: Flows, cases: Index) -> Flows:
    trip = flows.trip.reshape(2, -1)[:, cases].ravel()
    return Flows(flows.mass[cases], flows.tau[cases], flows.stagnation[cases], trip)


def _put(cases: _Cases, active: Index, flows: Flows) -> None:
    cases.flows.mass[active], cases.flows.tau[active] = flows.mass, flows.tau
    cases.flows.stagnation[active] = flows.stagnation


def _advance(flow: MassInfluence, cases: _Cases, active: Index, flows: Flows) -> NDArray[np.bool_]:
    """One step of Newton's method, shortened where it is bold; gives which cases are solved."""
    alpha, reynolds = cases.alpha[active], cases.reynolds[active]
    base = np.stack([np.cos(alpha), np.sin(alpha)], axis=1) @ flow.base.T
    signed = base + (flows.mass * signs(flow, flows.stagnation)) @ flow.influence.T
    _relaid(flow, flows, signed)
    lanes = lanes_of(flow, signed, flows.stagnation)
    step = newton_step(flow, flows, lanes, reynolds)
    size = np.maximum(
        np.abs(step.mass) / np.maximum(flows.mass, 0.6 * np.exp(flows.tau)), np.abs(step.tau)
    )
    size = np.maximum(size, 0.7 * np.abs(step.speed) / np.maximum(lanes.speed, 0.3)).max(1)
    lost = ~np.isfinite(size)
    size = np.where(lost, 1e9, size)
    part = np.minimum(LARGEST / np.maximum(size, LARGEST), 1.0)
    part = np.minimum(part, LARGEST_EXPONENT / np.maximum(step.exponent, LARGEST_EXPONENT))
    part = np.where(lost | ~np.isfinite(part), 0.0, part)[:, None]
    free = (step.natural <= flows.trip) | (flows.trip >= lanes.last - 1.0)
    both = free[: len(active)] & free[len(active) :]
    solved = (size < SETTLED) & both
    cases.lift[active], cases.drag[active] = step.lift, step.drag
    cases.moment[active], cases.settled[active] = step.moment, solved
    if solved.any():
        _put(cases, active, flows)
    flows.mass = flows.mass + np.nan_to_num(part * step.mass)
    flows.tau = flows.tau + np.nan_to_num(part * step.tau)
    speed = np.maximum(lanes.speed + np.nan_to_num(part * step.speed), LEAST_SPEED)
    least = np.where(np.arange(len(flow.base)) < flow.count, 1.03, 1.0005)
    flows.mass = np.maximum(flows.mass, least * speed * np.exp(flows.tau))
    walk = np.where(np.tile(size < WALK_BELOW, 2), WALK, 0.0)
    flows.trip = np.where(free, FAR, flows.trip + walk)
    return solved


def _joined(first: Flows, second: Flows) -> Flows:
    return Flows(
        np.concatenate([first.mass, second.mass]),
        np.concatenate([first.tau, second.tau]),
        np.concatenate([first.stagnation, second.stagnation]),
        np.concatenate([f.trip.reshape(2, -1) for f in (first, second)], axis=1).ravel(),
    )


def _solve(flow: MassInfluence, cases: _Cases, first: Index, shape: tuple[int, int]) -> None:
    """Step all cases at hand together; whatever is solved hands its state to its neighbours."""
    active, flows = first, _picked(cases.flows, first)
    left = np.full(len(first), FIRST_STEPS)
    tried: set[tuple[int, int]] = set()
    for _ in range(MOST_STEPS):
        solved = _advance(flow, cases, active, flows)
        left -= 1
        keep = np.flatnonzero(~solved & (left > 0))
        active, flows, left = active[keep], _picked(flows, keep), left[keep]
        pairs = _neighbours(cases.settled.reshape(shape), tried, set(active.tolist()))
        if pairs:
            target, source = np.array(pairs).T
            flows = _joined(flows, _from_neighbours(cases, target, source))
            active = np.concatenate([active, target])
            left = np.concatenate([left, np.full(len(target), MORE_STEPS)])
        if len(active) == 0:
            return


def coupled_polar(flow: MassInfluence, alpha: Array, reynolds: Array) -> CoupledPolar:
    """Lift, drag and moment of an outline at a grid of angles and Reynolds numbers.

    One case in four starts with a trip at the laminar separation, which then walks back until the
    layer turns turbulent before it; the others start from solved neighbours.

    Args:
        flow: Outer flow of the outline.
        alpha: Rising. [rad]
        reynolds: On chord, rising. [-]

    Returns:
        The grid; unsolved cases are marked.

    Valid:
        Attached flow with or without bubbles, and some degrees past the stall.

    Source:
        Two-equation layer and simultaneous solution: Drela & Giles 1987 (from memory).

    Example:
        >>> coupled_polar(flow, alpha, reynolds).settled.mean()  # doctest: +SKIP
        0.8
    """
    rows, columns = len(reynolds), len(alpha)
    size = rows * columns
    angles, numbers = np.tile(alpha, rows), np.repeat(reynolds, columns)
    started = _started(flow, angles, numbers)
    zero = np.zeros(size)
    cases = _Cases(
        angles,
        numbers,
        flows=started,
        lift=zero,
        drag=zero.copy(),
        moment=zero.copy(),
        settled=np.zeros(size, dtype=bool),
    )
    first = np.flatnonzero(np.tile(np.arange(columns) % EVERY == EVERY // 2, rows))
    with np.errstate(all="ignore"):
        _solve(flow, cases, first, (rows, columns))
    lift, drag, moment = (v.reshape(rows, columns) for v in (cases.lift, cases.drag, cases.moment))
    return CoupledPolar(lift, drag, moment, cases.settled.reshape(rows, columns))


def _neighbours(
    settled: NDArray[np.bool_], tried: set[tuple[int, int]], busy: set[int]
) -> list[tuple[int, int]]:
    """Unsolved cases at rest, each with one solved neighbour that was not yet tried."""
    rows, columns = settled.shape
    pairs: list[tuple[int, int]] = []
    for i, j in np.argwhere(~settled).tolist():
        if i * columns + j in busy:
            continue
        for a, b in ((i, j - 1), (i, j + 1), (i - 1, j), (i + 1, j)):
            pair = (i * columns + j, a * columns + b)
            if 0 <= a < rows and 0 <= b < columns and settled[a, b] and pair not in tried:
                pairs.append(pair)
                tried.add(pair)
                break
    return pairs


def _from_neighbours(cases: _Cases, target: Index, source: Index) -> Flows:
    thicker = np.sqrt(cases.reynolds[source] / cases.reynolds[target])[:, None]
    return Flows(
        cases.flows.mass[source] * thicker,
        cases.flows.tau[source] + np.log(thicker),
        cases.flows.stagnation[source].copy(),
        np.full(2 * len(target), FAR),
    )
