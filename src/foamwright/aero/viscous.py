"""Lift, drag and moment of an outline from its inviscid flow and boundary layer.

The layer is found for a row of inviscid angles. Its displacement, and the wake of a separation,
take camber off (thin-aerofoil theory), which gives the lift and the true angle that belong to each
row: no iteration, and stall appears where the loss outgrows the gain.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.layer import STATIONS, Layer, Surface, at_station, boundary_layer, surface_of
from foamwright.aero.tuning import MIDDLE_REYNOLDS, TUNING, Tuning
from foamwright.aero.vortex_panels import PanelFlow, lift_and_moment

type Array = NDArray[np.float64]

ROWS = np.radians(np.arange(-9.0, 19.1, 1.0))  # inviscid angles
SIDES = np.array([1.0, -1.0])
PLATE_LIFT = 1.08  # Cl and Cd of any thin section at 45 deg [SHELDAHL]
DROP = 0.72  # lift kept after a sharp stall over the largest lift; Clark-Y at Re 200k [UIUC-1]
MOMENT_SHARE = (
    0.6  # of the camber loss that shows in the moment; Clark-Y at Re 61k and 200k [UIUC-1]
)
NOSE = 0.10  # x/c ahead of which an open laminar separation is a burst nose bubble; assumed
UNDER_SLOPE, STALLED_SLOPE = 4.5, 1.2  # 1/rad, below the lowest row, and where stalled; assumed
UNDER_BEND, UNDER_LIFT = -0.2, 0.75  # lift at which it stalls upside down, and its most; assumed
UNDER_DRAG = 0.3  # 1/rad, least growth of drag there; assumed
DROP_RANGE = math.radians(3.0)  # within which it falls; assumed


@dataclass(frozen=True, slots=True)
class Curve:
    """Section figures at rising true angles of attack, one row a Reynolds number.

    Attributes:
        alpha: (Re, n), rising. [rad]
        lift: [-]
        drag: [-]
        moment: About the quarter chord. [-]
        stall: Index of the last attached point of each row. [-]
    """

    alpha: Array
    lift: Array
    drag: Array
    moment: Array
    stall: NDArray[np.int_]


def _wake(
    surface: Surface, rows: Array, begin: NDArray[np.int_], turns: tuple[float, float]
) -> Array:
    """Height of a free shear layer above the surface from its separation station to the tail.

    It leaves along the tangent, turned part of the way to the stream.
    """
    turn, nose_turn = turns
    station = np.minimum(begin, STATIONS - 2)
    before = np.maximum(station - 2, 0)
    x, y = (at_station(v, station)[..., None] for v in (surface.x, surface.y))
    dx, dy = (at_station(v, station) - at_station(v, before) for v in (surface.x, surface.y))
    tangent = np.arctan2(dy * SIDES, np.maximum(dx, 1e-6))
    stream = (rows[:, None] * SIDES)[None]
    tangent = np.where(
        tangent > 0.0, np.minimum(tangent, np.maximum(nose_turn * stream, 0.0)), tangent
    )
    tangent = tangent + turn * np.maximum(stream - tangent, 0.0)
    side = SIDES[:, None]
    height = y * side + (surface.x - x) * np.tan(tangent)[..., None] - surface.y * side
    behind = (np.arange(STATIONS) > station[..., None]) & (surface.x > x)
    return np.where(behind, np.maximum(height, 0.0), 0.0)


def _camber_loss(surface: Surface, height: Array) -> tuple[Array, Array]:
    """Shift of the zero-lift angle and of the moment by a displacement height on each side."""
    x = np.clip(surface.x, 0.0, 1.0)
    theta = np.arccos(1.0 - 2.0 * x)
    run = np.diff(x, axis=-1)
    used = (x[..., 1:] > 0.02) & (run > 1e-5)
    rise = np.diff(height, axis=-1) * (0.5 * SIDES)[:, None]
    slope = np.where(used, rise / np.where(used, run, 1.0), 0.0)
    middle, step = 0.5 * (theta[..., 1:] + theta[..., :-1]), np.diff(theta, axis=-1)
    zero = -(slope * (np.cos(middle) - 1.0) * step).sum((-1, -2)) / math.pi
    series = (slope * (np.cos(2.0 * middle) - np.cos(middle)) * step).sum((-1, -2))
    return zero, 0.5 * series


def _drag(
    surface: Surface,
    layer: Layer,
    wakes: tuple[Array, Array],
    reynolds: Array,
    tuning: Tuning,
) -> Array:
    """Squire & Young where the layer stays on; momentum and wake height where not."""
    open_wake, wake = wakes
    tail_speed = 0.5 * (surface.speed[..., -2] + surface.speed[..., -3])
    shape = np.clip(layer.shape[..., -1], 1.3, 2.8)
    on = 2.0 * layer.theta[..., -1] * tail_speed ** (0.5 * (shape + 5.0))
    capped = np.minimum(layer.speed_laminar, 1.3)
    opened = 2.0 * layer.theta_laminar * capped**3.2 * tuning.open_friction
    opened = opened + tuning.open_drag * open_wake[..., -1]
    last = np.maximum(layer.turbulent_end - 1, 0)
    left = (
        2.0 * at_station(layer.theta, last) * at_station(surface.speed, last) ** tuning.wake_power
    )
    height = wake[..., -1]
    relative = reynolds[:, None, None] / MIDDLE_REYNOLDS
    rate = tuning.separated_drag * relative**tuning.separated_drag_reynolds
    left = left + rate * height**2 / (height + tuning.wake_onset)
    return np.where(layer.open, opened, np.where(layer.separated, left, on)).sum(-1)


def _smooth(values: Array) -> Array:
    """Quarter, half, quarter along the rows: a bubble opens by degrees, not at a station."""
    first = 2.0 * values[:, :1] - values[:, 1:2]
    last = 2.0 * values[:, -1:] - values[:, -2:-1]
    wide = np.concatenate([first, values, last], axis=1)
    return 0.25 * wide[:, :-2] + 0.5 * wide[:, 1:-1] + 0.25 * wide[:, 2:]


def section_curve(flow: PanelFlow, reynolds: Array, *, tuning: Tuning = TUNING) -> Curve:
    """Lift, drag and moment at true angles for several Reynolds numbers.

    Args:
        flow: Inviscid flow about the outline.
        reynolds: On chord. [-]
        tuning: The model's constants.

    Returns:
        The curve up to and beyond its stall.

    Valid:
        Re 40 000 to 400 000; smooth outlines 5 to 13 % thick, up to 5 % camber.

    Source:
        See layer.py; constants from tuning.py; checked in tests/validation/test_sections.py.

    Example:
        >>> section_curve(flow, np.array([2e5])).lift.max()  # doctest: +SKIP
        1.36
    """
    surface = surface_of(flow, ROWS)
    layer = boundary_layer(surface, reynolds, tuning)
    open_wake = np.where(
        layer.open[..., None],
        _wake(surface, ROWS, layer.laminar_end, (tuning.open_turn, tuning.nose_turn)),
        0.0,
    )
    wake = np.where(
        layer.separated[..., None],
        _wake(surface, ROWS, layer.turbulent_end, (tuning.separated_turn, tuning.nose_turn)),
        0.0,
    )
    off = np.where(layer.separated, layer.turbulent_end - 1, STATIONS - 1)
    off = np.where(layer.open, layer.laminar_end, off)
    thick = layer.shape * layer.theta
    held = at_station(thick, off)[..., None]
    thick = np.where(np.arange(STATIONS) >= off[..., None], held, thick)
    height = tuning.attached_camber * thick + tuning.open_camber * open_wake
    height += tuning.separated_camber * wake + tuning.deep_camber * wake**2 / 0.05
    loss, moment_loss = _camber_loss(surface, height)
    inviscid, moment = lift_and_moment(flow, ROWS)
    lifting = ROWS - tuning.nose_share * loss
    slope = (inviscid[1] - inviscid[0]) / (ROWS[1] - ROWS[0])
    lift = np.interp(lifting, ROWS, inviscid) + np.minimum(lifting - ROWS[0], 0.0) * slope
    nose_open = layer.open[..., 0] & (at_station(surface.x, layer.laminar_end)[..., 0] < NOSE)
    return _in_order(
        nose_open,
        _smooth(ROWS + (1.0 - tuning.nose_share) * loss),
        _smooth(lift),
        _smooth(_drag(surface, layer, (open_wake, wake), reynolds, tuning)),
        _smooth(moment + MOMENT_SHARE * moment_loss),
    )


def _in_order(
    nose_open: NDArray[np.bool_], alpha: Array, lift: Array, drag: Array, moment: Array
) -> Curve:
    """Points in order of angle, and the stall: lift falls, or the nose bubble bursts."""
    gone = np.zeros_like(nose_open)
    gone[:, :-1] = (np.diff(lift, axis=1) < 0.0) & (lift[:, :-1] > 0.4)
    gone[:, :-1] |= nose_open[:, 1:] & (lift[:, :-1] > 0.4)
    stall = np.where(gone.any(1), gone.argmax(1), lift.shape[1] - 1)
    rising = np.maximum.accumulate(alpha + 1e-7 * np.arange(alpha.shape[1]), axis=1)
    return Curve(rising, lift, drag, moment, stall)


def _below(under: Array, first: float) -> Array:
    """Lift below the lowest point of a curve: on along the line, then flat like a stalled plate."""
    bend = min(first, UNDER_BEND)
    line = first + UNDER_SLOPE * under
    over = (line - bend) * STALLED_SLOPE / UNDER_SLOPE
    return np.maximum(np.where(line > bend, line, bend + over), min(first, -UNDER_LIFT))


def on_angles(curve: Curve, angles: Array) -> tuple[Array, Array, Array, Array]:
    """The curve on fixed angles, carried past the stall towards a flat plate's.

    After the stall the lift falls to a share of its peak within 3 degrees, then runs to 1.08 at
    45 degrees; drag follows the normal force. Below the lowest row the line goes on to where a thin
    plate stalls, then flattens.

    Args:
        curve: From `section_curve`.
        angles: Rising. [rad]

    Returns:
        Lift, drag, moment (Re, n), and the largest lift (Re). [-]

    Source:
        Flat plate at 45 degrees: [SHELDAHL]; drop at the stall: Clark-Y [UIUC-1].

    Example:
        >>> on_angles(curve, np.radians([0.0]))[3]  # doctest: +SKIP
    """
    count = len(curve.alpha)
    lift, drag, moment = (np.zeros((count, len(angles))) for _ in range(3))
    most = np.zeros(count)
    for k in range(count):
        end = int(curve.stall[k]) + 1
        own = curve.alpha[k, :end]
        lift[k] = np.interp(angles, own, curve.lift[k, :end])
        drag[k] = np.interp(angles, own, curve.drag[k, :end])
        moment[k] = np.interp(angles, own, curve.moment[k, :end])
        last, most[k] = curve.lift[k, end - 1], curve.lift[k, :end].max()
        after = angles - own[-1]
        past = after > 0.0
        sunk = last + (DROP * most[k] - last) * np.minimum(after / DROP_RANGE, 1.0)
        far = np.clip((angles - own[-1] - DROP_RANGE) / (math.radians(45.0) - own[-1]), 0.0, 1.0)
        beyond = sunk + (PLATE_LIFT - DROP * most[k]) * far
        lift[k] = np.where(past, beyond, lift[k])
        share = np.clip(after / DROP_RANGE, 0.0, 1.0)
        drag[k] = np.where(past, drag[k, :] + share * np.abs(beyond * np.tan(angles)), drag[k])
        moment[k] = np.where(past, moment[k] - share * 0.08, moment[k])
        under = np.minimum(angles - own[0], 0.0)
        lift[k] = np.where(under < 0.0, _below(under, float(curve.lift[k, 0])), lift[k])
        drag[k] += np.abs(under) * np.maximum(np.abs(lift[k]), UNDER_DRAG)
    return lift, drag, moment, most
