"""Solids of folded wing skins: the section's shell, lofted between the ends of a panel."""

from importlib import import_module
from typing import Any

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import OutputError
from foamwright.parts.wing_frame import Station
from foamwright.parts.wing_run import Span, WingOpening, WingRun
from foamwright.shape.model import WingSection
from foamwright.shape.section import wing_section

OUTER_POINTS = 48  # on each side of the section
INNER_POINTS = 32
PAST = 0.05  # m that cutting blocks reach beyond what they cut
LEAST_CAVITY = 0.004  # m; a shorter hollow is filled with glue

type Array = NDArray[np.float64]


def solid_library(part: str = "") -> Any:  # noqa: ANN401 - a module imported late
    """The mesh library, or words on how to get it.

    Args:
        part: Of the library. [-]

    Returns:
        The module. [-]

    Raises:
        OutputError: It is not installed.

    Source:
        Definition.

    Example:
        >>> solid_library("creation").__name__
        'trimesh.creation'
    """
    try:
        return import_module(f"trimesh.{part}" if part else "trimesh")
    except ImportError as error:
        raise OutputError(
            "Solids need the libraries trimesh, manifold3d and mapbox-earcut, which are not "
            "installed here; run start.py again, or pip install them."
        ) from error


def skin_solid(run: WingRun, span: Span) -> Any:  # noqa: ANN401 - a mesh of a library imported late
    """The right-hand folded skin of one stretch as a closed mesh.

    Outside is the section's outline; inside lies one board's thickness within it, so that the
    bevels and the nose come out as they are glued. Aileron cut-outs and servo holes are taken out.

    Args:
        run: The wing. [-]
        span: The stretch. [-]

    Returns:
        A trimesh mesh in the plane's axes. [m]

    Source:
        Straight lines between the end sections: development of a cone.

    Example:
        >>> skin_solid(run, run.spans[0]).is_watertight  # doctest: +SKIP
        True
    """
    ends = [span.frame.station(place) for place in (span.start, span.end)]
    panel = span.frame.panel
    taper = (panel.root_chord, panel.tip_chord)
    sections = [
        wing_section(run.design.wing, end.chord, run.board.thickness, taper=taper) for end in ends
    ]
    shells = [_shell(section, run.board.thickness) for section in sections]
    hollow = all(inner is not None for _, inner in shells)
    rings = [
        [_lay(end, outer), *([_lay(end, inner)] if hollow and inner is not None else [])]
        for end, (outer, inner) in zip(ends, shells, strict=True)
    ]
    flat = [shells[0][0]] + ([shells[0][1]] if hollow and shells[0][1] is not None else [])
    mesh = _loft(flat, rings)
    blocks = [*_aileron_blocks(run, span), *_servo_blocks(run, span)]
    if not blocks:
        return mesh
    boolean = solid_library("boolean")
    return boolean.difference([mesh, *blocks], engine="manifold")


def _shell(section: WingSection, thickness: float) -> tuple[Array, Array | None]:
    """Outer and inner ring in the chord frame, counter-clockwise and clockwise."""
    upper, lower = (np.array(side) * section.chord for side in (section.upper, section.lower))
    x = section.chord * 0.5 * (1.0 - np.cos(np.linspace(0.0, np.pi, OUTER_POINTS)))
    over, under = (np.interp(x, side[:, 0], side[:, 1]) for side in (upper, lower))
    over[0] = under[0] = 0.5 * (over[0] + under[0])
    outer = np.vstack([np.column_stack([x, under]), np.column_stack([x, over])[:0:-1]])
    fine = np.linspace(0.0, section.chord, 801)
    roof, floor = (np.interp(fine, side[:, 0], side[:, 1]) for side in (upper, lower))
    steep = np.sqrt(1.0 + np.gradient(roof, fine) ** 2)
    gap = (roof - thickness * steep) - (floor + thickness)
    gap[fine < 2.0 * thickness] = -1.0
    open_ = np.flatnonzero(gap > 1e-5)
    if len(open_) < 2 or fine[open_[-1]] - fine[open_[0]] < LEAST_CAVITY:
        return outer, None
    inside = np.linspace(fine[open_[0]], fine[open_[-1]], INNER_POINTS)
    low = np.interp(inside, fine, floor + thickness)
    high = np.maximum(np.interp(inside, fine, roof - thickness * steep), low + 1e-5)
    inner = np.vstack([np.column_stack([inside, high]), np.column_stack([inside, low])[::-1]])
    return outer, inner


def _lay(station: Station, ring: Array) -> Array:
    return station.edge + ring[:, :1] * station.aft + ring[:, 1:] * station.up


def _loft(flat: list[Array], rings: list[list[Array]]) -> Any:  # noqa: ANN401 - as above
    """Closed mesh between two alike sets of rings; the first of each is outside."""
    counts = [len(ring) for ring in flat]
    total = sum(counts)
    walls: list[NDArray[np.int_]] = []
    start = 0
    for count in counts:
        here = start + np.arange(count)
        there = start + (np.arange(count) + 1) % count
        walls.append(np.column_stack([here, there, there + total]))
        walls.append(np.column_stack([here, there + total, here + total]))
        start += count
    cap = np.array(_strip(flat[0], flat[1]) if len(flat) > 1 else _zigzag(counts[0]))
    faces = np.vstack([*walls, cap[:, ::-1], cap + total])
    vertices = np.vstack([np.vstack(rings[0]), np.vstack(rings[1])])
    mesh = solid_library().Trimesh(vertices, faces, process=False)
    if mesh.volume < 0.0:
        mesh.invert()
    return mesh


def _zigzag(count: int) -> list[tuple[int, int, int]]:
    """Triangles of a ring that runs out along one side and back along the other."""
    faces: list[tuple[int, int, int]] = []
    low, high = 0, count - 1
    while high - low > 1:
        faces.append((low, low + 1, high))
        low += 1
        if high - low > 1:
            faces.append((low, high - 1, high))
            high -= 1
    return faces


def _strip(outer: Array, inner: Array) -> list[tuple[int, int, int]]:
    """Triangles between an outer ring and the ring of the hollow in it, by shortest diagonals.

    A general triangulation leaves out points that lie on a straight line, as those of the flat
    bottom do, and the mesh would not close.
    """
    # The inner ring runs clockwise: walk it backwards, from its foremost point.
    first = int(np.argmin(inner[:, 0]))
    order = (first - np.arange(len(inner) + 1)) % len(inner)
    lead = (int(np.argmin(outer[:, 0])) + np.arange(len(outer) + 1)) % len(outer)
    faces: list[tuple[int, int, int]] = []
    i, j = 0, 0
    while i < len(outer) or j < len(inner):
        a, b = int(lead[i]), int(order[j])
        far = np.inf
        step_out = far if i == len(outer) else np.hypot(*(outer[lead[i + 1]] - inner[b]))
        step_in = far if j == len(inner) else np.hypot(*(inner[order[j + 1]] - outer[a]))
        if step_out <= step_in:
            faces.append((a, int(lead[i + 1]), len(outer) + b))
            i += 1
        else:
            faces.append((a, len(outer) + int(order[j + 1]), len(outer) + b))
            j += 1
    return faces


def _block(run: WingRun, span: Span, places: tuple[float, float], box: list[Array]) -> Any:  # noqa: ANN401 - as above
    """A block between two places along the span, its cross-section given at each."""
    ends = [span.frame.station(place) for place in places]
    rings = [[_lay(end, ring)] for end, ring in zip(ends, box, strict=True)]
    return _loft([box[0]], rings)


def _rectangle(x0: float, x1: float, z0: float, z1: float) -> Array:
    return np.array([[x0, z0], [x1, z0], [x1, z1], [x0, z1]])


def _aileron_blocks(run: WingRun, span: Span) -> list[Any]:
    cut = run.aileron
    if cut is None or cut.end <= span.start + 1e-6 or cut.start >= span.end - 1e-6:
        return []
    past = (
        PAST if cut.start <= span.start + 1e-6 else 0.0,
        PAST if cut.end >= span.end - 1e-6 else 0.0,
    )
    places = (max(cut.start, span.start) - past[0], min(cut.end, span.end) + past[1])
    chords = [span.frame.station(place).chord for place in places]
    boxes = [_rectangle(c - cut.chord, c + PAST, -PAST, PAST) for c in chords]
    return [_block(run, span, places, boxes)]


def _servo_blocks(run: WingRun, span: Span) -> list[Any]:
    return [
        _servo_block(run, span, opening)
        for opening in run.openings
        if opening.side >= 0 and span.start - 1e-9 <= opening.place < span.end
    ]


def _servo_block(run: WingRun, span: Span, opening: WingOpening) -> Any:  # noqa: ANN401 - as above
    places = (opening.place - 0.5 * opening.wide, opening.place + 0.5 * opening.wide)
    if opening.side == 0:
        places = (-PAST, 0.5 * opening.wide)
    half = 0.5 * opening.long
    section = span.frame.panel.section
    lower = np.array(section.lower) * section.chord
    floor = float(np.interp(opening.behind, lower[:, 0], lower[:, 1]))
    top = floor + 1.3 * run.board.thickness
    box = _rectangle(opening.behind - half, opening.behind + half, -PAST, top)
    return _block(run, span, places, [box, box])
