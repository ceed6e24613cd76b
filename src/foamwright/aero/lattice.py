"""Vortex lattice over wing, stab and fin: every unit solution at once, about the datum."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.mesh import Fineness, Mesh, Strips, covered, mesh_of
from foamwright.aero.thin import flap_effectiveness
from foamwright.aero.vortex import BLOCK, far_wash, horseshoes_of, normal_wash
from foamwright.core.errors import ModelError
from foamwright.shape.model import Airframe, LiftingSurface

type Array = NDArray[np.float64]

STREAMS = ("base", "alpha", "beta", "roll", "pitch", "yaw")
WING_FINENESS = Fineness(strips=28, rows=7)
TAIL_FINENESS = Fineness(strips=14, rows=6)
# Legs fixed to the body overstate the roll due to sideslip of a lifting straight wing: whole, it
# is 0.12 CL at aspect ratio 6; published methods lie at 0.06 to 0.11 (from memory).
LEG_SHARE = 0.7
MIRROR = np.array([1.0, -1.0, 1.0])  # to the left half
BELOW = np.array([1.0, 1.0, -1.0])  # to the images below the ground
CORE = 0.10  # of the emitting strip's chord: swirl of one surface's wake on another; assumed


@dataclass(frozen=True, slots=True)
class Case:
    """One unit cause.

    Attributes:
        cause: "twist", "camber", "alpha", "pitch", "beta", "roll", "yaw", "yaw_alpha", "yaw_twist",
            "yaw_camber", or a control's name.
        surface: Index of the surface it acts on. [-]
        symmetric: Whether left and right respond alike.
    """

    cause: str
    surface: int
    symmetric: bool


@dataclass(frozen=True, slots=True)
class LatticeSolution:
    """Inviscid response of the whole plane to every unit cause, at unit speed and unit density.

    Forces are along x aft, y right, z up, moments about those axes through the datum; a product of
    a circulation case and a stream. Rates are per unit speed (rad/m).

    Attributes:
        mesh: The lattice of the right half (and the fin).
        surfaces: Names of the surfaces, in the order of the indices.
        cases: The unit causes.
        circulation: Circulation of each case on each strip of the right half, (case, strip). [m]
        forces: (case, stream, surface, 6): force and moment on both sides together. [m², m³]
        drag: (case, case, strip): streamwise force of each strip by the Trefftz plane. [m²]
    """

    mesh: Mesh
    surfaces: tuple[str, ...]
    cases: tuple[Case, ...]
    circulation: Array
    forces: Array
    drag: Array

    def select(self, cause: str, surface: int | None = None) -> list[int]:
        """Indices [-] of the cases of one cause, on one surface or on all."""
        return [
            index
            for index, case in enumerate(self.cases)
            if case.cause == cause and surface in (None, case.surface)
        ]


def solve_lattice(airframe: Airframe) -> LatticeSolution:
    """Solve the vortex lattice of a plane for every unit cause.

    Normal wash at each control point: sum of A_ij G_j = -V·n, once for loads alike on both sides
    and
    once for opposite ones; the left half is the mirror image.

    Args:
        airframe: The shape.

    Returns:
        Unit solutions about the datum.

    Valid:
        Attached flow, small angles, no compressibility; the fuselage is left out (see bodies.py).

    Source:
        [KP] ch. 12; unit solutions by superposition.

    Example:
        >>> solve_lattice(airframe).surfaces  # doctest: +SKIP
        ('wing', 'stab', 'fin')
    """
    surfaces = [airframe.wing, airframe.stab]
    if airframe.fin is not None:
        surfaces.append(airframe.fin)
    return solve_surfaces(surfaces, [WING_FINENESS, TAIL_FINENESS, TAIL_FINENESS][: len(surfaces)])


def solve_surfaces(
    surfaces: Sequence[LiftingSurface],
    fineness: Sequence[Fineness],
    *,
    ground: float | None = None,
) -> LatticeSolution:
    """Solve any set of surfaces; the first is the wing.

    Args:
        surfaces: Mirrored ones by their right half; others whole, in the plane of symmetry.
        fineness: Strips and rows of each.
        ground: z of a level ground below them all, whose mirror images take part; None for free
            flight. [m]

    Returns:
        Unit solutions about the datum.

    Raises:
        ModelError: A ground that is not below.

    Valid:
        As `solve_lattice`; near the ground the images' change of speed along the stream, which
        grows with the square of the lift, is left out.

    Source:
        [KP] ch. 12; images, sec. 5.6.

    Example:
        >>> solve_surfaces([wing], [Fineness(16, 5)]).cases[0].cause  # doctest: +SKIP
        'twist'
    """
    mesh = mesh_of(surfaces, fineness)
    if ground is not None and not ground < min(mesh.start[:, 2].min(), mesh.end[:, 2].min()):
        raise ModelError(f"The ground must lie below every surface; got z = {ground} m.")
    cases, washes = _causes(surfaces, mesh)
    panel_circulation = _solve(mesh, _influence(mesh, ground), cases, washes)
    strips = mesh.strips
    starts = np.flatnonzero(np.diff(np.concatenate([[-1], mesh.strip])))
    circulation = np.add.reduceat(panel_circulation, starts, axis=1)
    return LatticeSolution(
        mesh=mesh,
        surfaces=tuple(s.name for s in surfaces),
        cases=tuple(cases),
        circulation=circulation,
        forces=_forces(mesh, cases, panel_circulation, len(surfaces)),
        drag=_trefftz(strips, cases, circulation, ground),
    )


def mirrored(points: Array, normals: Array, ground: float | None) -> tuple[Array, Array]:
    """Points and normals, right and left, then as seen from below the ground.

    What a mirror image does at a point is what the vortex itself does at the point's image.

    Args:
        points: Right half, (n, 3). [m]
        normals: There, (n, 3). [-]
        ground: z of the ground; None for free flight. [m]

    Returns:
        Both twice as long, four times with a ground. [m], [-]

    Source:
        [KP] sec. 5.6, images.

    Example:
        >>> mirrored(np.ones((1, 3)), np.ones((1, 3)), 0.0)[0][:, 1:].tolist()
        [[1.0, 1.0], [-1.0, 1.0], [1.0, -1.0], [-1.0, -1.0]]
    """
    points, normals = (np.concatenate([rows, rows * MIRROR]) for rows in (points, normals))
    if ground is None:
        return points, normals
    below = points * BELOW + np.array([0.0, 0.0, 2.0 * ground])
    return np.concatenate([points, below]), np.concatenate([normals, normals * BELOW])


def _influence(mesh: Mesh, ground: float | None) -> tuple[Array, Array]:
    """Normal wash at each control point for loads alike on both sides, and for opposite ones.

    Alike: what stands in the middle carries none and is left out. A block of points at a time, so
    that horseshoes and mirror images are added up before they leave the fastest memory.
    """
    strip, strips = mesh.strip, mesh.strips
    normals, owner = strips.normal[strip], strips.surface[strip]
    vortices = horseshoes_of(mesh.start, mesh.end)
    count, sided = len(owner), int((~mesh.centred).sum())
    alike, opposite = np.empty((sided, sided)), np.empty((count, count))
    step = max(1, BLOCK // max(count, 1))
    for number, (low, high) in enumerate(_stretches(owner)):
        core = np.where(owner == number, 0.0, CORE * strips.chord[strip])
        for first in range(low, high, step):
            rows = slice(first, min(first + step, high))
            points, up = mirrored(mesh.control[rows], normals[rows], ground)
            wash = normal_wash(points, up, vortices, core=core)
            both = 2 * (rows.stop - rows.start)
            if ground is not None:
                wash[:both] += wash[both:]
            own, image = wash[: both // 2], wash[both // 2 : both]
            image[:, sided:] = 0.0
            if rows.start < sided:
                np.add(own[:, :sided], image[:, :sided], out=alike[rows])
            np.subtract(own, image, out=opposite[rows])
    return alike, opposite


def _stretches(owner: NDArray[np.int_]) -> list[tuple[int, int]]:
    """First panel and the one after the last of each surface; their panels follow one another."""
    ends = np.searchsorted(owner, np.arange(owner[-1] + 2)).tolist()
    return list(pairwise(ends))


def _causes(surfaces: Sequence[LiftingSurface], mesh: Mesh) -> tuple[list[Case], Array]:
    """Every unit cause with the wash V·n that it makes at the control points."""
    strips, strip = mesh.strips, mesh.strip
    x, y, z = mesh.control.T
    normal = strips.normal[strip]
    ny, nz = normal[:, 1], normal[:, 2]
    owner = strips.surface[strip]
    ones = np.ones_like(x)
    symmetric = {"twist": strips.twist[strip], "camber": ones, "alpha": nz, "pitch": x * nz}
    opposite = {"beta": -ny, "roll": -z * ny + y * nz, "yaw": x * ny}
    opposite |= {f"yaw_{name}": -y * symmetric[name] for name in ("twist", "camber", "alpha")}
    cases: list[Case] = []
    washes: list[Array] = []
    for number, surface in enumerate(surfaces):
        mine = owner == number
        for alike, causes in ((True, symmetric), (False, opposite)):
            if alike and not surface.mirrored:
                continue
            for cause, wash in causes.items():
                if (cause == "camber" or cause.startswith("yaw_")) and number > 0:
                    continue
                cases.append(Case(cause, number, alike))
                washes.append(np.where(mine, wash, 0.0))
        for control in surface.controls:
            share = covered(strips, number, control)[strip]
            turn = flap_effectiveness(control.chord_fraction)
            # Rudder trailing edge left: nose-down incidence of a fin and of a right V half.
            sign = -1.0 if control.name == "rudder" else 1.0
            cases.append(Case(control.name, number, control.name == "elevator"))
            washes.append(sign * turn * share)
    return cases, np.array(washes)


def _solve(mesh: Mesh, matrices: tuple[Array, Array], cases: list[Case], washes: Array) -> Array:
    circulation = np.zeros((len(cases), len(mesh.strip)))
    alike = np.array([case.symmetric for case in cases])
    sided = len(matrices[0])
    circulation[alike, :sided] = np.linalg.solve(matrices[0], -washes[alike, :sided].T).T
    if (~alike).any():
        circulation[~alike] = np.linalg.solve(matrices[1], -washes[~alike].T).T
    return circulation


def _streams(points: Array) -> Array:
    """Stream velocity at points for unit speed, alpha, beta, roll, pitch, yaw: (3, 6, n)."""
    x, y, z = points.T
    streams = np.zeros((3, len(STREAMS), len(points)))
    streams[0, 0], streams[0, 4], streams[0, 5] = 1.0, -z, -y
    streams[1, 2], streams[1, 3], streams[1, 5] = -1.0, -z, x
    streams[2, 1], streams[2, 3], streams[2, 4] = 1.0, y, x
    return streams


def _crossed(first: Array, second: Array) -> Array:
    """Vector product, components first."""
    (ax, ay, az), (bx, by, bz) = first, second
    return np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx])


def _forces(mesh: Mesh, cases: list[Case], circulation: Array, surfaces: int) -> Array:
    """Kutta-Joukowski on bound vortices and on the legs that lie on the surface."""
    count = len(mesh.strip)
    back_start, back_end = mesh.start.copy(), mesh.end.copy()
    back_start[:, 0], back_end[:, 0] = mesh.trailing_start, mesh.trailing_end
    first = np.concatenate([back_start, mesh.start, mesh.end])
    last = np.concatenate([mesh.start, mesh.end, back_end])
    middle, run = 0.5 * (first + last), last - first
    run *= np.repeat([LEG_SHARE, 1.0, LEG_SHARE], count)[:, None]
    force = _crossed(_streams(middle), run.T[:, None, :])
    load = np.concatenate([force, _crossed(middle.T[:, None, :], force)])
    load = load.reshape(6, len(STREAMS), 3, count).sum(axis=2)
    total = np.empty((len(cases), len(STREAMS), surfaces, 6))
    for number, (low, high) in enumerate(_stretches(mesh.strips.surface[mesh.strip])):
        part = circulation[:, low:high] @ load[:, :, low:high].reshape(-1, high - low).T
        total[:, :, number] = part.reshape(-1, 6, len(STREAMS)).transpose(0, 2, 1)
    return total * _parity(mesh, cases, surfaces)


def _parity(mesh: Mesh, cases: list[Case], surfaces: int) -> Array:
    """Twice what both sides share, nothing of what they cancel; a fin counts once."""
    alike_out = np.array([1, 0, 1, 0, 1, 0], dtype=float)
    stream_alike = np.array([True, True, False, False, True, False])
    case_alike = np.array([case.symmetric for case in cases])
    same = case_alike[:, None] == stream_alike[None, :]
    both = 2.0 * np.where(same[..., None], alike_out, 1.0 - alike_out)
    result = np.repeat(both[:, :, None, :], surfaces, axis=2)
    for number in range(surfaces):
        mine = mesh.strips.surface[mesh.strip] == number
        if mesh.centred[mine].all():
            # Alone in the middle: what it feels is what counts, once.
            result[:, :, number, :] *= 0.5
    return result


def _trefftz(strips: Strips, cases: list[Case], circulation: Array, ground: float | None) -> Array:
    """Streamwise force of each right-hand strip: -G_i w_j width / 2, w the wash far behind."""
    count = len(strips.chord)
    flat = np.column_stack([np.zeros(count), strips.middle])
    points, normals = mirrored(flat, strips.normal, ground)
    y, z = far_wash(points[:, 1:], strips.inner, strips.outer)
    wash = y * normals[:, 1, None] + z * normals[:, 2, None]
    if ground is not None:
        wash[: 2 * count] += wash[2 * count :]
    own, image = wash[:count], wash[count : 2 * count]
    centred = (np.abs(strips.inner[:, 0]) < 1e-9) & (np.abs(strips.outer[:, 0]) < 1e-9)
    image[:, centred] = 0.0
    alike = np.array([case.symmetric for case in cases])
    felt = np.where(alike[:, None], circulation @ (own + image).T, circulation @ (own - image).T)
    half = -0.5 * strips.width
    return np.asarray(circulation[:, None, :] * felt[None, :, :] * half)
