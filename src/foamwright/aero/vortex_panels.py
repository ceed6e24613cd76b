"""Inviscid flow about an outline by panels of linearly varying vorticity."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class PanelFlow:
    """Surface speeds at unit stream, as the sum of a part along and a part across the chord.

    Attributes:
        middle: Panel middles, tail - underside - nose - upper side - tail, (n, 2). [-]
        length: Panel lengths. [-]
        angle: Panel directions. [rad]
        speed: Along the panel for the stream along and across the chord, (n, 2). [-]
    """

    middle: Array
    length: Array
    angle: Array
    speed: Array

    def at(self, alpha: Array) -> Array:
        """Surface speeds [-] at angles of attack, (n, len(alpha))."""
        return np.asarray(self.speed @ np.stack([np.cos(alpha), np.sin(alpha)]))


def panel_flow(points: Array) -> PanelFlow:
    """Solve the flow about an outline with the Kutta condition.

    Vorticity varies linearly along each panel; no flow through each panel's middle; equal and
    opposite
    vorticity at the two tail points.

    Args:
        points: Corner points from the tail along the underside round the nose, (n + 1, 2). [-]

    Returns:
        Surface speeds.

    Source:
        [KUETHE] sec. 5.10, linear-vortex panels.

    Example:
        >>> theta = np.linspace(0, -2 * np.pi, 41)
        >>> circle = 0.5 + 0.5 * np.column_stack([np.cos(theta), np.sin(theta)])
        >>> round(float(np.abs(panel_flow(circle).at(np.array([0.0]))).max()), 1)
        2.0
    """
    x_edge, y_edge = points.T
    count = len(x_edge) - 1
    x, y = 0.5 * (x_edge[1:] + x_edge[:-1]), 0.5 * (y_edge[1:] + y_edge[:-1])
    length = np.hypot(np.diff(x_edge), np.diff(y_edge))
    angle = np.arctan2(np.diff(y_edge), np.diff(x_edge))
    cosine, sine = np.cos(angle), np.sin(angle)
    dx, dy = x[:, None] - x_edge[None, :-1], y[:, None] - y_edge[None, :-1]
    a, b = -dx * cosine - dy * sine, dx * dx + dy * dy
    c, d = np.sin(angle[:, None] - angle), np.cos(angle[:, None] - angle)
    e = dx * sine - dy * cosine
    f = np.log(np.maximum(1.0 + (length**2 + 2.0 * a * length) / b, 1e-12))
    g = np.arctan2(e * length, b + a * length)
    turn = angle[:, None] - 2.0 * angle
    p = dx * np.sin(turn) + dy * np.cos(turn)
    q = dx * np.cos(turn) - dy * np.sin(turn)
    normal_2 = d + 0.5 * q * f / length - (a * c + d * e) * g / length
    normal_1 = 0.5 * d * f + c * g - normal_2
    along_2 = c + 0.5 * p * f / length + (a * d - c * e) * g / length
    along_1 = 0.5 * c * f - d * g - along_2
    own = np.arange(count)
    normal_1[own, own], normal_2[own, own] = -1.0, 1.0
    along_1[own, own] = along_2[own, own] = 0.5 * np.pi
    matrix, tangent = np.zeros((count + 1, count + 1)), np.zeros((count, count + 1))
    matrix[:count, :count] += normal_1
    matrix[:count, 1:] += normal_2
    tangent[:, :count] += along_1
    tangent[:, 1:] += along_2
    matrix[count, 0] = matrix[count, count] = 1.0
    right = np.zeros((count + 1, 2))
    right[:count] = np.column_stack([sine, -cosine])
    speed = np.column_stack([cosine, sine]) + tangent @ np.linalg.solve(matrix, right)
    return PanelFlow(np.column_stack([x, y]), length, angle, speed)


def lift_and_moment(flow: PanelFlow, alpha: Array) -> tuple[Array, Array]:
    """Inviscid lift coefficient and moment about the quarter chord.

    Args:
        flow: The solved flow.
        alpha: Angles of attack of the chord line. [rad]

    Returns:
        Lift and moment coefficients. [-]

    Source:
        Circulation for the lift, surface pressure for the moment.

    Example:
        >>> theta = np.linspace(0, -2 * np.pi, 41)
        >>> circle = 0.5 + 0.5 * np.column_stack([np.cos(theta), np.sin(theta)])
        >>> lift_and_moment(panel_flow(circle), np.array([0.0]))[0].round(6) + 0.0
        array([0.])
    """
    speed = flow.at(alpha)
    pressure = 1.0 - speed**2
    x, y = flow.middle.T
    arm = (x - 0.25) * np.cos(flow.angle) + y * np.sin(flow.angle)
    lift = 2.0 * flow.length @ speed
    return lift, (arm * flow.length) @ pressure
