"""Forces on the whole plane from the lattice's unit solutions, sections' slopes put in."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.lattice import STREAMS, LatticeSolution

type Array = NDArray[np.float64]

BASE, ALPHA, BETA, ROLL, PITCH, YAW = range(6)
CAUSES = (
    "twist", "camber", "alpha", "beta", "roll", "pitch", "yaw",
    "yaw_twist", "yaw_camber", "yaw_alpha",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Response:
    """Unit responses with real section slopes and control losses in.

    Attributes:
        solution: The inviscid unit solutions.
        forces: (case, stream, surface, 6). [m², m³]
        gains: Slope of each surface over its inviscid slope. [-]
        area: Wing area. [m²]
        span: [m]
        chord: Mean aerodynamic chord. [m]
        cg: Moments are about this point. [m]
        induced: Induced drag, and its yaw, per product of two cases, (2, case, case). [m², m³]
        controls: Names of the controls.
        order: Place of each case's cause among CAUSES and controls. [-]
    """

    solution: LatticeSolution
    forces: Array
    gains: Array
    area: float
    span: float
    chord: float
    cg: tuple[float, float, float]
    induced: Array
    controls: tuple[str, ...]
    order: NDArray[np.int_]


@dataclass(frozen=True, slots=True)
class State:
    """Small-angle state of flight about the CG.

    Attributes:
        alpha: Of the fuselage line. [rad]
        beta: Wind from the right. [rad]
        roll: Roll rate over speed, right. [rad/m]
        pitch: Pitch rate over speed, nose up. [rad/m]
        yaw: Yaw rate over speed, right. [rad/m]
        controls: Control name -> deflection. [rad]
    """

    alpha: float = 0.0
    beta: float = 0.0
    roll: float = 0.0
    pitch: float = 0.0
    yaw: float = 0.0
    controls: Mapping[str, float] | None = None


@dataclass(frozen=True, slots=True)
class Forces:
    """Coefficients on wing area, mean chord (pitch) and span (roll, yaw), wind axes.

    Attributes:
        lift: [-]
        drag: Induced only. [-]
        side: To the right. [-]
        roll: Right wing down. [-]
        pitch: Nose up. [-]
        yaw: Nose right. [-]
    """

    lift: float
    drag: float
    side: float
    roll: float
    pitch: float
    yaw: float


def response_of(
    solution: LatticeSolution,
    *,
    gains: Array,
    sizes: tuple[float, float, float],
    cg: tuple[float, float, float],
    opposite: Array | None = None,
) -> Response:
    """Put the sections' real slopes into the unit solutions.

    A surface's answer to its own incidence scales with its gain; what it feels of another's wake
    scales
    with both gains.

    Args:
        solution: The unit solutions.
        gains: Real slope over inviscid slope of each surface. [-]
        sizes: Wing area, span, mean chord. [m², m, m]
        cg: Centre of gravity. [m]
        opposite: As gains, for loads that are opposite left and right; None takes gains. [-]

    Returns:
        The response.

    Source:
        Superposition; 1/a = 1/a_lattice + 1/a_section - 1/(2 pi) for each gain.

    Example:
        >>> response_of(solution, gains=ones, sizes=sizes, cg=(0.3, 0, 0))  # doctest: +SKIP
    """
    source = np.array([case.surface for case in solution.cases])
    alike = np.array([case.symmetric for case in solution.cases])
    made = np.where(alike, gains[source], (gains if opposite is None else opposite)[source])
    own = source[:, None] == np.arange(len(gains))[None, :]
    scale = made[:, None] * np.where(own, 1.0, gains[None, :])
    area, span, chord = sizes
    forces = solution.forces * scale[:, None, :, None]
    induced = _induced_table(solution, gains[source])
    named = [case.cause for case in solution.cases]
    controls = tuple(dict.fromkeys(cause for cause in named if cause not in CAUSES))
    places = {cause: place for place, cause in enumerate((*CAUSES, *controls))}
    order = np.array([places[cause] for cause in named])
    return Response(
        solution, forces, gains, area, span, chord, cg, induced, controls=controls, order=order
    )


def _induced_table(solution: LatticeSolution, gain: Array) -> Array:
    """Induced drag of two cases alike, and the yaw of two that are not, gains put in."""
    alike = np.array([case.symmetric for case in solution.cases])
    place = solution.mesh.strips.middle[:, 0]
    sided = place > 1e-9
    # More drag on the right wing turns the nose right.
    weights = np.stack([sided.astype(float), np.where(sided, place, 0.0)], axis=1)
    table = 4.0 * (solution.drag @ weights) * np.multiply.outer(gain, gain)[..., None]
    both = np.equal.outer(alike, alike)
    return np.stack([np.where(both, table[..., 0], 0.0), np.where(both, 0.0, table[..., 1])])


def amplitudes(response: Response, state: State, camber: float) -> Array:
    """Strength of every unit case in a state of flight.

    Args:
        response: The response.
        state: The state.
        camber: Minus the zero-lift angle of the wing section. [rad]

    Returns:
        One number a case. [rad, rad/m]

    Source:
        Superposition; a rate about the CG is the same rate about the datum with the incidence it
        makes there.

    Example:
        >>> amplitudes(response, State(alpha=0.1), 0.06)  # doctest: +SKIP
    """
    x, _, z = response.cg
    turned = state.controls or {}
    alpha = state.alpha - state.pitch * x
    beta = state.beta + state.yaw * x - state.roll * z
    yaw = state.yaw
    # in the order of CAUSES
    strength = [1.0, camber, alpha, beta, state.roll, state.pitch, yaw]
    strength += [yaw, yaw * camber, yaw * alpha]
    strength += [turned.get(name, 0.0) for name in response.controls]
    return np.array(strength)[response.order]


def forces_in(response: Response, state: State, camber: float) -> Forces:
    """Force and moment coefficients of all surfaces in a state.

    Args:
        response: The response.
        state: The state.
        camber: Minus the zero-lift angle of the wing section. [rad]

    Returns:
        Coefficients about the CG.

    Source:
        As `forces_in_all`.

    Example:
        >>> forces_in(response, State(alpha=0.1), 0.06).lift  # doctest: +SKIP
        0.8
    """
    return forces_in_all(response, [state], camber)[0]


def forces_in_all(response: Response, states: Sequence[State], camber: float) -> tuple[Forces, ...]:
    """Force and moment coefficients of all surfaces in some states, all at once.

    Args:
        response: The response.
        states: The states.
        camber: Minus the zero-lift angle of the wing section. [rad]

    Returns:
        Coefficients about the CG, one a state.

    Source:
        Kutta-Joukowski with every stream component; induced drag and its yaw by the Trefftz plane.

    Example:
        >>> forces_in_all(response, [State(alpha=0.1)], 0.06)[0].lift  # doctest: +SKIP
        0.8
    """
    strength = np.stack([amplitudes(response, state, camber) for state in states])
    table = response.forces.sum(axis=2).reshape(strength.shape[1], -1)
    total = (strength @ table).reshape(len(states), len(STREAMS), 6)
    drag, yaw = _induced(response, strength)
    return _reduce(response, states, total, induced=(drag, yaw))


def _streams_of(response: Response, state: State) -> tuple[float, ...]:
    x, _, z = response.cg
    return (
        1.0,
        state.alpha - state.pitch * x,
        state.beta + state.yaw * x - state.roll * z,
        state.roll,
        state.pitch,
        state.yaw,
    )


def _reduce(
    response: Response, states: Sequence[State], total: Array, *, induced: tuple[Array, Array]
) -> tuple[Forces, ...]:
    streams = np.array([_streams_of(response, state) for state in states])
    force = 2.0 * (streams[:, None, :] @ total)[:, 0, :]
    area, span, chord = response.area, response.span, response.chord
    x, y, z = response.cg
    rows: list[Forces] = []
    for state, row, drag, drag_yaw in zip(
        states, force.tolist(), induced[0].tolist(), induced[1].tolist(), strict=True
    ):
        fx, fy, fz, mx, my, mz = row
        roll = -(mx - (y * fz - z * fy)) / (area * span)
        pitch = (my - (z * fx - x * fz)) / (area * chord)
        yaw = -(mz - (x * fy - y * fx)) / (area * span) + drag_yaw
        c, s = math.cos(state.alpha), math.sin(state.alpha)
        rows.append(
            Forces(
                lift=(fz * c - fx * s) / area,
                drag=drag,
                side=fy / area,
                roll=roll * c + yaw * s,
                pitch=pitch,
                yaw=yaw * c - roll * s,
            )
        )
    return tuple(rows)


def _induced(response: Response, strength: Array) -> tuple[Array, Array]:
    """Induced drag, and the yaw moment of unequal induced drag left and right, one a state."""
    drag, yaw = ((strength @ response.induced) * strength).sum(axis=2)
    return drag / response.area, yaw / (response.area * response.span)


def share_of(response: Response, state: State, camber: float, surface: int) -> Forces:
    """What one surface alone adds to the coefficients of the plane, induced drag left out.

    Args:
        response: The response.
        state: The state.
        camber: Minus the zero-lift angle of the wing section. [rad]
        surface: Its index. [-]

    Returns:
        Coefficients about the CG; drag is 0.

    Source:
        As `forces_in`.

    Example:
        >>> share_of(response, State(alpha=0.1), 0.06, 1).pitch  # doctest: +SKIP
        -0.05
    """
    strength = amplitudes(response, state, camber)
    table = response.forces[:, :, surface].reshape(len(strength), -1)
    total = (strength @ table).reshape(1, len(STREAMS), 6)
    none = np.zeros(1)
    return _reduce(response, [state], total, induced=(none, none))[0]


def own_share(response: Response, surface: int, controls: Mapping[str, float]) -> Forces:
    """What one surface makes of its own setting and controls in a stream along the fuselage line.

    Args:
        response: The response.
        surface: Its index. [-]
        controls: Control name -> deflection. [rad]

    Returns:
        Coefficients about the CG; drag is 0.

    Source:
        As `forces_in`, without the other surfaces' wakes.

    Example:
        >>> own_share(response, 1, {"elevator": -0.05}).pitch  # doctest: +SKIP
        0.04
    """
    state = State(controls=controls)
    strength = amplitudes(response, state, 0.0)
    mine = np.array([case.surface == surface for case in response.solution.cases])
    table = response.forces[:, :, surface].reshape(len(strength), -1)
    total = (np.where(mine, strength, 0.0) @ table).reshape(1, len(STREAMS), 6)
    none = np.zeros(1)
    return _reduce(response, [state], total, induced=(none, none))[0]
