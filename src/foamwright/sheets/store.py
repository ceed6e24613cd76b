"""Keep an accepted layout so that it stays the same until the parts change."""

import hashlib
import json
from collections import Counter
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import shapely

from foamwright.parts.model import Part
from foamwright.sheets.model import Bench, Layout, Placement
from foamwright.sheets.place import board_parts, make_layout, turned, verify_layout

FORM = 2  # of the stored file; a file of another form is not read
KEY_STEP = 1e6  # parts that differ by less than 1 µm are the same


def layout_key(parts: Sequence[Part], bench: Bench) -> str:
    """Make a short text that changes when anything that bears on the layout changes.

    SHA-256 over board and off-cut sizes, gap, margin and every board part's id, outline, fold
    direction and faces.

    Args:
        parts: All parts of the plane. [-]
        bench: The boards. [-]

    Returns:
        64 hexadecimal digits. [-]

    Source:
        Definition.

    Example:
        >>> len(layout_key((), Bench(0.762, 0.508, 0.003, 0.006)))
        64
    """
    sizes = sorted(side for piece in bench.offcuts for side in piece)
    values = (bench.length, bench.width, bench.gap, bench.margin, *sizes)
    content: list[Any] = [[round(value * KEY_STEP) for value in values]]
    for part in board_parts(parts):
        rings = [part.outline.exterior, *part.outline.interiors]
        corners = [(shapely.get_coordinates(ring) * KEY_STEP).round().tolist() for ring in rings]
        content.append([part.id, corners, part.fold_along, part.either_face])
    return hashlib.sha256(json.dumps(content).encode()).hexdigest()


def layout_text(layout: Layout, parts: Sequence[Part], bench: Bench) -> str:
    """Write a layout as JSON text, with the key of the parts that it belongs to.

    Args:
        layout: The accepted layout. [-]
        parts: All parts of the plane. [-]
        bench: The boards that it was made for. [-]

    Returns:
        JSON text. [-]

    Source:
        Definition.

    Example:
        >>> bench = Bench(0.7, 0.5, 0.003, 0.006)
        >>> empty = Layout((), 0, 0.7, 0.5, 0.003, 0.006, 0.0, "draft")
        >>> json.loads(layout_text(empty, (), bench))["placements"]
        []
    """
    content = {
        "form": FORM,
        "key": layout_key(parts, bench),
        "method": layout.method,
        "unplaced": list(layout.unplaced),
        "offcuts": [list(size) for size in layout.offcuts],
        "placements": [
            {
                "part": p.part_id,
                "board": p.board,
                "angle": p.angle,
                "dx": p.dx,
                "dy": p.dy,
                "mirrored": p.mirrored,
            }
            for p in layout.placements
        ],
    }
    return json.dumps(content, indent=1) + "\n"


def load_layout(path: Path, parts: Sequence[Part], bench: Bench) -> Layout | None:
    """Read the stored layout, when it still belongs to these parts and is sound.

    Args:
        path: File that holds what `layout_text` made. [-]
        parts: All parts of the plane. [-]
        bench: The boards. [-]

    Returns:
        The layout; None when the file is missing, unreadable, of other parts, or not sound. [-]

    Source:
        Definition.

    Example:
        >>> load_layout(Path("none.json"), (), Bench(0.7, 0.5, 0.003, 0.006)) is None
        True
    """
    try:
        content = json.loads(path.read_text(encoding="utf-8"))
        if content["form"] != FORM or content["key"] != layout_key(parts, bench):
            return None
        layout = _restored(content, parts, bench)
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None
    if verify_layout(layout, parts) or not _on_the_bench(layout, bench):
        return None
    return layout


def _on_the_bench(layout: Layout, bench: Bench) -> bool:
    """Whether every off-cut that the layout uses is there, each once."""
    there = Counter(bench.offcuts)
    there.subtract(layout.offcuts)
    return min(there.values(), default=0) >= 0


def _restored(content: dict[str, Any], parts: Sequence[Part], bench: Bench) -> Layout:
    by_id = {part.id: part for part in board_parts(parts)}
    placements: list[Placement] = []
    for spot in content["placements"]:
        angle, dx, dy = (float(spot[key]) for key in ("angle", "dx", "dy"))
        over = bool(spot["mirrored"])
        outline = turned(by_id[spot["part"]].outline, angle, dx, dy, mirrored=over)
        board = int(spot["board"])
        placements.append(Placement(spot["part"], board, angle, dx, dy, outline, over))
    return make_layout(
        placements,
        bench,
        method=str(content["method"]),
        offcuts=[(float(length), float(width)) for length, width in content["offcuts"]],
        unplaced=tuple(content["unplaced"]),
    )
