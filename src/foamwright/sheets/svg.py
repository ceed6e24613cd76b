"""Boards as SVG at true size: one group for each kind of line, so that a machine can pick."""

import math
from collections.abc import Iterable
from xml.sax.saxutils import escape, quoteattr

from foamwright.sheets.kerf import with_kerf
from foamwright.sheets.model import Drawing, Stroke, Text
from foamwright.sheets.styles import STYLES

PER_METRE = 1000.0  # mm
CAP_HEIGHT = 0.72  # height of a capital over type size


def write_svg(drawing: Drawing, *, title: str = "", kerf: float = 0.0) -> str:
    """Write one board as SVG; one user unit is one millimetre.

    Groups carry the kind of line as id: cut, score, crease, fold, bevel, mark, board, note, words.

    Args:
        drawing: The board. [-]
        title: Title of the file. [-]
        kerf: Width of the machine's cut, by half of which cut lines are moved. [m]

    Returns:
        The SVG text. [-]

    Source:
        W3C SVG 1.1.

    Example:
        >>> write_svg(Drawing("Board 1 of 1", 0.762, 0.508, (), ())).count("762mm")
        1
    """
    drawing = with_kerf(drawing, kerf)
    length, width = drawing.length * PER_METRE, drawing.width * PER_METRE
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{_number(length)}mm" '
        f'height="{_number(width)}mm" viewBox="0 0 {_number(length)} {_number(width)}">',
        f"<title>{escape(title or drawing.name)}</title>",
    ]
    for kind in STYLES:
        strokes = [stroke for stroke in drawing.strokes if stroke.kind == kind]
        if strokes:
            lines += _group(kind, strokes, width)
    lines.append('<g id="words" font-family="Helvetica, Arial, sans-serif" text-anchor="middle">')
    lines += [_text(text, width) for text in drawing.texts]
    lines += ["</g>", "</svg>", ""]
    return "\n".join(lines)


def _group(kind: str, strokes: Iterable[Stroke], width: float) -> list[str]:
    style = STYLES[kind]
    grey = round(255 * style.grey)
    dash = f' stroke-dasharray="{" ".join(map(_number, style.dash))}"' if style.dash else ""
    head = (
        f'<g id="{kind}" fill="none" stroke="#{grey:02x}{grey:02x}{grey:02x}" '
        f'stroke-width="{_number(style.width)}"{dash}>'
    )
    return [head, *(_path(stroke, width) for stroke in strokes), "</g>"]


def _path(stroke: Stroke, width: float) -> str:
    points = " L ".join(
        f"{_number(x * PER_METRE)} {_number(width - y * PER_METRE)}" for x, y in stroke.points
    )
    close = " Z" if stroke.closed else ""
    part = f" data-part={quoteattr(stroke.part)}" if stroke.part else ""
    return f'<path d="M {points}{close}"{part}/>'


def _text(text: Text, width: float) -> str:
    size = text.size * PER_METRE
    # The foot of the letters lies half a capital below the middle, square to the reading direction.
    drop = size * CAP_HEIGHT / 2
    x = text.at[0] * PER_METRE + drop * math.sin(text.angle)
    y = width - text.at[1] * PER_METRE + drop * math.cos(text.angle)
    turn = math.degrees(-text.angle)
    rotate = f' transform="rotate({_number(turn)} {_number(x)} {_number(y)})"' if turn else ""
    bold = ' font-weight="bold"' if text.bold else ""
    return (
        f'<text x="{_number(x)}" y="{_number(y)}" font-size="{_number(size)}"{bold}{rotate}>'
        f"{escape(text.words)}</text>"
    )


def _number(value: float) -> str:
    """Write a number with at most a ten-thousandth of a micrometre, no needless zeros."""
    return f"{value:.7f}".rstrip("0").rstrip(".") if value else "0"
