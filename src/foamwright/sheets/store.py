"""Keep an accepted layout so that it stays the same until the parts change."""

import hashlib
import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import shapely

from foamwright.parts.model import Part
from foamwright.sheets.model import Layout, Placement
from foamwright.sheets.place import board_parts, make_layout, turned, verify_layout

FORM = 1  # of the stored file; a file of another form is not read
KEY_STEP = 1e6  # parts that differ by less than 1 µm are the same


def layout_key(
    parts: Sequence[Part], size: tuple[float, float], *, gap: float, margin: float
) -> str:
    """Make a short text that changes when anything that bears on the layout changes.

    SHA-256 over board size, gap, margin and every board part's id, outline and fold direction.

    Args:
        parts: All parts of the plane. [-]
        size: Board length and width. [m]
        gap: Between parts. [m]
        margin: To the board's edge. [m]

    Returns:
        64 hexadecimal digits. [-]

    Source:
        Definition.

    Example:
        >>> len(layout_key((), (0.762, 0.508), gap=0.003, margin=0.006))
        64
    """
    content: list[Any] = [[round(value * KEY_STEP) for value in (*size, gap, margin)]]
    for part in board_parts(parts):
        rings = [part.outline.exterior, *part.outline.interiors]
        corners = [(shapely.get_coordinates(ring) * KEY_STEP).round().tolist() for ring in rings]
        content.append([part.id, corners, part.fold_along])
    return hashlib.sha256(json.dumps(content).encode()).hexdigest()


def layout_text(layout: Layout, parts: Sequence[Part]) -> str:
    """Write a layout as JSON text, with the key of the parts that it belongs to.

    Args:
        layout: The accepted layout. [-]
        parts: All parts of the plane. [-]

    Returns:
        JSON text. [-]

    Source:
        Definition.

    Example:
        >>> empty = Layout((), 0, 0.7, 0.5, 0.003, 0.006, 0.0, "draft")
        >>> json.loads(layout_text(empty, ()))["placements"]
        []
    """
    size = (layout.board_length, layout.board_width)
    content = {
        "form": FORM,
        "key": layout_key(parts, size, gap=layout.gap, margin=layout.margin),
        "method": layout.method,
        "unplaced": list(layout.unplaced),
        "placements": [
            {"part": p.part_id, "board": p.board, "angle": p.angle, "dx": p.dx, "dy": p.dy}
            for p in layout.placements
        ],
    }
    return json.dumps(content, indent=1) + "\n"


def save_layout(layout: Layout, parts: Sequence[Part], path: Path) -> Path:
    """Write an accepted layout beside the drawings; an older one is replaced.

    Args:
        layout: The accepted layout. [-]
        parts: All parts of the plane. [-]
        path: File to write. [-]

    Returns:
        The path written. [-]

    Source:
        Definition.

    Example:
        >>> save_layout(layout, parts, Path("cob-layout.json"))  # doctest: +SKIP
    """
    from foamwright.core.files import write_atomically

    write_atomically(path, layout_text(layout, parts), overwrite=True)
    return path


def load_layout(
    path: Path,
    parts: Sequence[Part],
    size: tuple[float, float],
    *,
    gap: float,
    margin: float,
) -> Layout | None:
    """Read the stored layout, when it still belongs to these parts and is sound.

    Args:
        path: File written by `save_layout`. [-]
        parts: All parts of the plane. [-]
        size: Board length and width. [m]
        gap: Between parts. [m]
        margin: To the board's edge. [m]

    Returns:
        The layout; None when the file is missing, unreadable, of other parts, or not sound. [-]

    Source:
        Definition.

    Example:
        >>> load_layout(Path("none.json"), (), (0.7, 0.5), gap=0.003, margin=0.006) is None
        True
    """
    try:
        content = json.loads(path.read_text(encoding="utf-8"))
        if content["form"] != FORM:
            return None
        if content["key"] != layout_key(parts, size, gap=gap, margin=margin):
            return None
        layout = _restored(content, parts, size, gap, margin)
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return None if verify_layout(layout, parts) else layout


def _restored(
    content: dict[str, Any],
    parts: Sequence[Part],
    size: tuple[float, float],
    gap: float,
    margin: float,
) -> Layout:
    outlines = {part.id: part.outline for part in board_parts(parts)}
    placements = [
        Placement(
            part_id=spot["part"],
            board=int(spot["board"]),
            angle=float(spot["angle"]),
            dx=float(spot["dx"]),
            dy=float(spot["dy"]),
            outline=turned(outlines[spot["part"]], spot["angle"], spot["dx"], spot["dy"]),
        )
        for spot in content["placements"]
    ]
    return make_layout(
        placements,
        size,
        gap=gap,
        margin=margin,
        method=str(content["method"]),
        unplaced=tuple(content["unplaced"]),
    )
