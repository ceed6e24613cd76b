"""Boundary layer on both sides of a section at many angles and Reynolds numbers at once.

Laminar by Thwaites; transition by the e^n envelope; a laminar separation bubble that closes or
stays open; turbulent by Head. Arrays run (Reynolds number, angle, side, station); side 0 is the
upper one.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.closures import (
    SEPARATION,
    amplification,
    entrainment_shape,
    laminar_shape,
    shape_of_entrainment,
    turbulent_friction,
)
from foamwright.aero.tuning import MIDDLE_REYNOLDS, Tuning
from foamwright.aero.vortex_panels import PanelFlow

type Array = NDArray[np.float64]

STATIONS = 80


@dataclass(frozen=True, slots=True)
class Surface:
    """Outer flow along both sides from the stagnation point, (angle, side, station).

    Attributes:
        s: Distance along the surface. [-]
        speed: Outer speed over stream speed. [-]
        x: [-]
        y: [-]
    """

    s: Array
    speed: Array
    x: Array
    y: Array


@dataclass(frozen=True, slots=True)
class Layer:
    """The boundary layer.

    Attributes:
        theta: Momentum thickness, (Re, angle, side, station). [-]
        shape: H there. [-]
        laminar_end: Station where the laminar layer separates, last one if it does not. [-]
        open: Whether a laminar separation stays open to the trailing edge.
        turbulent_start: Station where turbulent flow lies on the surface, last one if nowhere. [-]
        turbulent_end: Station where the turbulent layer separates, last one if it does not. [-]
        separated: Whether it does.
        theta_laminar: Momentum thickness at laminar_end. [-]
        speed_laminar: Outer speed there. [-]
    """

    theta: Array
    shape: Array
    laminar_end: NDArray[np.int_]
    open: NDArray[np.bool_]
    turbulent_start: NDArray[np.int_]
    turbulent_end: NDArray[np.int_]
    separated: NDArray[np.bool_]
    theta_laminar: Array
    speed_laminar: Array


def surface_of(flow: PanelFlow, alpha: Array) -> Surface:
    """Outer flow along both sides for each angle.

    Args:
        flow: Inviscid flow about the outline.
        alpha: Angles of attack. [rad]

    Returns:
        Stations crowded towards the stagnation point.

    Source:
        Definition.

    Example:
        >>> surface_of(flow, np.array([0.0])).s.shape  # doctest: +SKIP
        (1, 2, 80)
    """
    middle = np.cumsum(flow.length) - 0.5 * flow.length
    whole = float(flow.length.sum())
    ends = np.concatenate([[0.0], middle, [whole]])
    half = 0.5 * flow.length[:, None] * np.column_stack([np.cos(flow.angle), np.sin(flow.angle)])
    edges = [flow.middle[0] - half[0], flow.middle[-1] + half[-1]]
    points = np.vstack([edges[0], flow.middle, edges[1]])
    speeds = flow.at(alpha)
    share = np.linspace(0.0, 1.0, STATIONS) ** 1.6
    result = np.zeros((4, len(alpha), 2, STATIONS))
    for k in range(len(alpha)):
        speed = speeds[:, k]
        turn = np.flatnonzero((speed[:-1] <= 0.0) & (speed[1:] > 0.0))
        j = int(turn[np.argmin(flow.middle[turn, 0])]) if len(turn) else len(speed) // 2
        start = middle[j] - speed[j] * (middle[j + 1] - middle[j]) / (speed[j + 1] - speed[j])
        places = np.stack([start + (whole - start) * share, start - start * share])
        padded = np.concatenate([speed[:1], speed, speed[-1:]])
        outer = np.abs(np.interp(places, ends, padded))
        outer[:, 0] = 0.0
        xs, ys = (np.interp(places, ends, points[:, axis]) for axis in range(2))
        result[:, k] = np.stack([np.abs(places - start), outer, xs, ys])
    return Surface(*result)


def at_station(values: Array, station: NDArray[np.int_]) -> Array:
    """Values at one station of each side.

    Args:
        values: (..., station), broadcast to the stations' shape. [any]
        station: (...). [-]

    Returns:
        (...). [any]

    Source:
        Definition.

    Example:
        >>> float(at_station(np.array([[1.0, 2.0]]), np.array([1]))[0])
        2.0
    """
    whole = np.broadcast_to(values, (*station.shape, values.shape[-1]))
    return np.take_along_axis(whole, station[..., None], -1)[..., 0]


@dataclass(frozen=True, slots=True)
class _Laminar:
    theta: Array
    shape: Array
    separates: NDArray[np.bool_]
    end: NDArray[np.int_]
    natural: NDArray[np.bool_]
    transition: NDArray[np.int_]
    exponent: Array


def _running(values: Array, places: Array) -> Array:
    """Running trapezoid integral along the last axis."""
    piece = 0.5 * (values[..., 1:] + values[..., :-1]) * np.diff(places, axis=-1)
    zero = np.zeros((*piece.shape[:-1], 1))
    return np.concatenate([zero, np.cumsum(piece, axis=-1)], axis=-1)


def _laminar(surface: Surface, reynolds: Array, tuning: Tuning) -> _Laminar:
    s, speed = surface.s, np.maximum(surface.speed, 1e-6)
    square = 0.45 * _running(speed**5, s) / np.maximum(speed, 1e-3) ** 6  # theta² Re
    slope = np.gradient(speed, axis=-1) / np.maximum(np.gradient(s, axis=-1), 1e-9)
    square[..., 0] = 0.075 / np.maximum(slope[..., 0], 1e-3)  # stagnation point
    pressure = square * slope
    pressure[..., 0] = 0.075
    shape = laminar_shape(pressure)
    beyond = pressure < SEPARATION
    beyond[..., :2] = False
    separates = beyond.any(-1)
    end = np.where(separates, beyond.argmax(-1), STATIONS - 1)
    root = np.sqrt(reynolds)[:, None, None, None]
    theta = np.sqrt(square) / root
    rate = amplification(shape, speed * theta * root**2) / theta
    exponent = _running(rate, np.broadcast_to(s, rate.shape))
    critical = exponent > tuning.critical_exponent
    critical[..., :2] = False
    transition = np.where(critical.any(-1), critical.argmax(-1), STATIONS - 1)
    natural = critical.any(-1) & (transition <= end)
    full = np.broadcast_to(shape, theta.shape)
    many = np.broadcast_to(end, natural.shape)
    return _Laminar(
        theta, full, np.broadcast_to(separates, natural.shape), many, natural, transition, exponent
    )


def _bubble(
    surface: Surface, laminar: _Laminar, reynolds: Array, tuning: Tuning
) -> tuple[NDArray[np.bool_], NDArray[np.int_], Array]:
    """Whether, where and how thick the separated layer comes back to the surface.

    The laminar shear layer keeps its pressure until the exponent is critical; then the turbulent
    one may
    take the outer flow's pressure back at the first station where its length suffices (Horton
    1968).
    """
    s, speed = surface.s, np.maximum(surface.speed, 1e-6)
    end = laminar.end
    theta, before = at_station(laminar.theta, end), at_station(speed, end)
    exponent = np.minimum(at_station(laminar.exponent, end), tuning.critical_exponent)
    turbulent = (
        at_station(s, end) + (tuning.critical_exponent - exponent) / tuning.shear_growth * theta
    )
    length = s - turbulent[..., None]
    ratio = before[..., None] / speed
    mixed = tuning.mixing * np.maximum(length, 0.0) * 0.25 * (1.0 + ratio) * (1.0 + ratio**2)
    after = theta[..., None] * ratio**tuning.bubble_power + mixed
    relative = reynolds[:, None, None, None] / MIDDLE_REYNOLDS
    rate = tuning.reattachment * relative**tuning.reattachment_reynolds
    closes = (length > 0.0) & (length * rate >= after * (ratio - 1.0))
    closes &= np.arange(STATIONS) >= end[..., None]
    found = closes.any(-1)
    where = np.where(found, closes.argmax(-1), STATIONS - 1)
    return np.asarray(found), where, at_station(after, where)


def boundary_layer(surface: Surface, reynolds: Array, tuning: Tuning) -> Layer:
    """March the layer along both sides.

    Args:
        surface: Outer flow.
        reynolds: On chord. [-]
        tuning: The model's constants.

    Returns:
        The layer.

    Valid:
        Re 40 000 to 400 000, smooth surfaces, quiet air.

    Source:
        [THWAITES]; Drela & Giles 1987; Horton 1968; Head 1958.

    Example:
        >>> boundary_layer(surface, np.array([1e5]), TUNING).open.shape  # doctest: +SKIP
        (1, 27, 2)
    """
    laminar = _laminar(surface, reynolds, tuning)
    found, where, thick = _bubble(surface, laminar, reynolds, tuning)
    natural = laminar.natural
    closed = found & ~natural & laminar.separates
    last = np.full_like(where, STATIONS - 1)
    start = np.where(natural, laminar.transition, np.where(closed, where, last))
    theta_start = np.where(natural, at_station(laminar.theta, start), thick)
    shape_start = np.where(natural, 1.5, tuning.reattached_shape)
    theta, shape, ended, separated = _turbulent(
        surface, reynolds, (start, theta_start, shape_start), laminar, tuning
    )
    return Layer(
        theta=theta,
        shape=shape,
        laminar_end=laminar.end,
        open=laminar.separates & ~natural & ~closed,
        turbulent_start=start,
        turbulent_end=ended,
        separated=separated,
        theta_laminar=at_station(laminar.theta, laminar.end),
        speed_laminar=at_station(surface.speed, np.asarray(laminar.end)),
    )


def _turbulent(
    surface: Surface,
    reynolds: Array,
    begin: tuple[NDArray[np.int_], Array, Array],
    laminar: _Laminar,
    tuning: Tuning,
) -> tuple[Array, Array, NDArray[np.int_], NDArray[np.bool_]]:
    """Head's entrainment method from where each layer turns turbulent to where it ends."""
    start, theta_start, shape_start = begin
    theta, shape = laminar.theta.copy(), laminar.shape.copy()
    number = reynolds[:, None, None]
    thick, form = theta_start.copy(), shape_start.copy()
    entrain = entrainment_shape(form)
    limit = tuning.separated_shape * (number / MIDDLE_REYNOLDS) ** tuning.separated_reynolds
    running = np.zeros(start.shape, dtype=bool)
    separated = running.copy()
    ended = np.full(start.shape, STATIONS - 1)
    speed = np.maximum(surface.speed, 1e-6)
    for j in range(int(start.min()), STATIONS - 1):
        running |= start == j
        free = running & ~separated
        theta[..., j] = np.where(running, thick, theta[..., j])
        shape[..., j] = np.where(running, form, shape[..., j])
        step = surface.s[..., j + 1] - surface.s[..., j]
        mean = 0.5 * (speed[..., j + 1] + speed[..., j])
        gain = (speed[..., j + 1] - speed[..., j]) / mean
        friction = turbulent_friction(form, mean * thick * number)
        new = np.maximum(thick + 0.5 * friction * step - (form + 2.0) * thick * gain, 1e-6)
        growth = 0.0306 * np.maximum(entrain - 3.0, 0.02) ** -0.6169
        flux = entrain * thick * speed[..., j] + growth * mean * step
        entrained = np.clip(flux / (new * speed[..., j + 1]), 3.32, 12.0)
        formed = shape_of_entrainment(entrained)
        gone = free & (formed > limit) & (j > start + 1)
        ended = np.where(gone, j + 1, ended)
        separated |= gone
        free &= ~gone
        thick = np.where(free | gone, new, thick)
        entrain, form = np.where(free, entrained, entrain), np.where(free, formed, form)
    theta[..., -1] = np.where(running, thick, theta[..., -1])
    shape[..., -1] = np.where(running, form, shape[..., -1])
    return theta, shape, ended, separated
