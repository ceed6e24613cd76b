"""All boards in one DXF, side by side, in millimetres, one layer for each kind of line."""

import io
import math
from collections.abc import Generator, Sequence
from contextlib import contextmanager
from importlib import import_module
from types import ModuleType
from typing import Any

from foamwright.sheets.kerf import with_kerf
from foamwright.sheets.metrics import CAP_HEIGHT
from foamwright.sheets.model import Drawing
from foamwright.sheets.styles import STYLES

PER_METRE = 1000.0  # mm
SPACE = 50.0  # mm between boards
MILLIMETRES = 4  # DXF header variable $INSUNITS
COLOURS = {
    "cut": 1,
    "score": 5,
    "crease": 3,
    "fold": 6,
    "bevel": 4,
    "mark": 8,
    "board": 9,
    "note": 8,
}  # DXF colour numbers
WORDS = "words"  # layer of all texts


def write_dxf(drawings: Sequence[Drawing], *, title: str = "", kerf: float = 0.0) -> str:
    """Write all boards as one DXF drawing.

    Outlines are closed polylines on layer "cut". With a kerf the outer rings grow and the holes
    shrink by half of it, so that a machine whose cut has that width leaves the part true.

    Args:
        drawings: Boards, drawn from left to right. [-]
        title: Title of the drawing. [-]
        kerf: Width of the machine's cut; 0 draws true outlines, as for a knife. [m]

    Returns:
        The DXF text, AutoCAD 2010 form. [-]

    Source:
        Definition.

    Example:
        >>> "SECTION" in write_dxf([Drawing("Board 1 of 1", 0.762, 0.508, (), ())])
        True
    """
    ezdxf = import_module("ezdxf")  # late: it takes a second
    with _fixed_dates(ezdxf):
        document = ezdxf.new("R2010", units=MILLIMETRES)
        document.header["$MEASUREMENT"] = 1
        if title:
            document.header.custom_vars.append("Title", title)
        for kind, style in STYLES.items():
            document.layers.add(kind, color=COLOURS[kind], lineweight=_weight(style.width))
        document.layers.add(WORDS, color=8)
        space = document.modelspace()
        shift = 0.0
        for drawing in drawings:
            _add_board(space, with_kerf(drawing, kerf), shift)
            shift += drawing.length * PER_METRE + SPACE
        text = io.StringIO()
        document.write(text)
    return text.getvalue()


@contextmanager
def _fixed_dates(ezdxf: ModuleType) -> Generator[None]:
    """Leave the clock and random ids out of the file, so that equal drawings make equal files."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _add_board(space: Any, drawing: Drawing, shift: float) -> None:  # noqa: ANN401 -- a DXF layout has no public type
    for stroke in drawing.strokes:
        points = [(x * PER_METRE + shift, y * PER_METRE) for x, y in stroke.points]
        space.add_lwpolyline(points, close=stroke.closed, dxfattribs={"layer": stroke.kind})
    for text in drawing.texts:
        size = text.size * PER_METRE
        entity = space.add_text(
            text.words,
            height=size * CAP_HEIGHT,
            rotation=math.degrees(text.angle),
            dxfattribs={"layer": WORDS},
        )
        place = (text.at[0] * PER_METRE + shift, text.at[1] * PER_METRE)
        entity.set_placement(place, align=_middle())
    head = space.add_text(drawing.name, height=8.0, dxfattribs={"layer": WORDS})
    head.set_placement((shift, drawing.width * PER_METRE + 6.0))


def _weight(width: float) -> int:
    """Give the nearest line weight that the file form knows, in hundredths of a millimetre."""
    known = import_module("ezdxf.lldxf.const").VALID_DXF_LINEWEIGHTS
    return min(known, key=lambda weight: abs(weight - 100 * width))


def _middle() -> Any:  # noqa: ANN401 -- an enumeration of a library imported late
    from ezdxf.enums import TextEntityAlignment

    return TextEntityAlignment.MIDDLE_CENTER
