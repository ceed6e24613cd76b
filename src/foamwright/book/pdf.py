"""Blocks on paper."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape

from foamwright.book.model import Block, Figure, Grid, Heading, Patch, Picture, Words
from foamwright.sheets.metrics import font_of

MM = 72 / 25.4  # points in a millimetre
EDGE = 16 * MM
PAPERS = {"a4": (595.276, 841.89), "letter": (612.0, 792.0)}
SIZE = {"plain": 9.5, "small": 8.3, "caution": 8.6, "check": 9.2, "box": 9.2}  # points
MARKS = {"caution": "! ", "check": "Check: ", "box": ""}
LINE = 0.6  # points, of outlines
LABEL = 7.5  # points
LARGE = 1.16  # type of the field card over that of the book


def write_pdf(
    blocks: Sequence[Block], *, title: str, paper: str = "a4", card: bool = False
) -> bytes:
    """A PDF of blocks, the same bytes each time.

    Args:
        blocks: Page after page; a heading of level 1 starts a page. [-]
        title: Of the document, on every page. [-]
        paper: "a4" or "letter". [-]
        card: Larger type, for reading in the field. [-]

    Returns:
        The file.

    Source:
        Definition.

    Example:
        >>> write_pdf([Heading("Cob", 1)], title="Cob")[:5]
        b'%PDF-'
    """
    from reportlab.platypus import KeepTogether, PageBreak, SimpleDocTemplate

    buffer = io.BytesIO()
    width, height = PAPERS[paper]
    edge = EDGE * (0.75 if card else 1.0)
    document = SimpleDocTemplate(
        buffer, pagesize=(width, height), leftMargin=edge, rightMargin=edge, topMargin=edge,
        bottomMargin=edge + 4, title=title, author="", invariant=1,
    )  # fmt: skip
    look = Look(LARGE if card else 1.0, _odd_letters(blocks))
    story: list[Any] = []
    for place, group in enumerate(_groups(blocks)):
        first = group[0]
        if isinstance(first, Heading) and first.level == 1 and place:
            story.append(PageBreak())
        flow = [piece for block in group for piece in _flow(block, width - 2 * edge - 12, look)]
        story += [KeepTogether(flow)] if len(group) > 1 else flow

    def foot(canvas: Any, _: object) -> None:  # noqa: ANN401 - of reportlab
        canvas.setFont(font_of(title), 7)
        canvas.drawString(edge, edge * 0.55, title)
        canvas.drawRightString(width - edge, edge * 0.55, str(canvas.getPageNumber()))

    document.build(story, onFirstPage=foot, onLaterPages=foot)
    return buffer.getvalue()


@dataclass(frozen=True, slots=True)
class Look:
    """How words are set in one document.

    Attributes:
        scale: Of the type. [-]
        letters: Those that the built-in typefaces lack; all words are set in one that has them.
    """

    scale: float
    letters: str


def _odd_letters(blocks: Sequence[Block]) -> str:
    words = "".join(
        "".join((*block.head, *(cell for row in block.rows for cell in row)))
        if isinstance(block, Grid)
        else block.caption
        if isinstance(block, Figure)
        else block.words
        for block in blocks
    )
    return next((letter for letter in words if font_of(letter) != font_of("a")), "")


def _groups(blocks: Sequence[Block]) -> list[list[Block]]:
    """What stays on one page: a step whole, its picture and its words; a heading with its table.

    A step that alone is longer than a page runs on, as everything else does.
    """
    groups: list[list[Block]] = []
    held = False
    for block in blocks:
        if isinstance(block, Heading):
            groups.append([block])
            held = block.level == 2
        elif held:
            groups[-1].append(block)
            held = not isinstance(block, Grid)
        else:
            groups.append([block])
    return groups


def _flow(block: Block, width: float, look: Look) -> list[Any]:
    from reportlab.platypus import Spacer

    if isinstance(block, Heading):
        return [_paragraph(block.words, _heading(look.scale, block.level), look, bold=True)]
    if isinstance(block, Words):
        mark = MARKS.get(block.kind, "")
        line = " " + "_" * 24 if block.kind == "box" else ""
        return [_paragraph(block.words + line, _style(block.kind, look.scale), look, mark=mark)]
    if isinstance(block, Grid):
        return [_table(block, width, look), Spacer(1, 5 * look.scale)]
    return _figure(block, width, look)


def _paragraph(words: str, style: Any, look: Look, *, bold: bool = False, mark: str = "") -> Any:  # noqa: ANN401 - of reportlab
    """Words in the first typeface that has all their letters, after a mark in bold."""
    from reportlab.platypus import Paragraph

    face = style.clone(style.name, fontName=font_of(words + look.letters, bold=bold))
    lead = f'<font name="{font_of(mark + look.letters, bold=True)}">{mark}</font>' if mark else ""
    return Paragraph(lead + escape(words), face)


def _heading(scale: float, level: int) -> Any:  # noqa: ANN401 - of reportlab
    from reportlab.lib.styles import ParagraphStyle

    size = (17 if level == 1 else 12.5) * scale
    return ParagraphStyle(
        f"h{level}", fontSize=size, leading=1.2 * size, keepWithNext=int(level == 1),
        spaceBefore=(0 if level == 1 else 9) * scale, spaceAfter=3 * scale,
    )  # fmt: skip


def _style(kind: str, scale: float) -> Any:  # noqa: ANN401 - of reportlab
    from reportlab.lib.colors import Color
    from reportlab.lib.styles import ParagraphStyle

    size = SIZE[kind] * scale
    framed = kind == "caution"
    return ParagraphStyle(
        kind, fontSize=size, leading=1.25 * size,
        spaceAfter=(8 if framed else 2.2) * scale, spaceBefore=(7 if framed else 0) * scale,
        borderWidth=0.7 if framed else 0, borderPadding=2.5 if framed else 0,
        borderColor=Color(0, 0, 0) if framed else None,
        leftIndent=4 if framed else 0, rightIndent=4 if framed else 0,
    )  # fmt: skip


def _table(block: Grid, width: float, look: Look) -> Any:  # noqa: ANN401 - of reportlab
    from reportlab.lib.colors import Color
    from reportlab.platypus import Table, TableStyle

    scale, style = look.scale, _style("small", look.scale)
    head = (
        [[_paragraph(cell, style, look, bold=True) for cell in block.head]]
        if any(block.head)
        else []
    )
    rows = [[_paragraph(cell, style, look) for cell in row] for row in block.rows]
    total = sum(block.widths)
    table = Table(
        head + rows, colWidths=[width * share / total for share in block.widths],
        repeatRows=len(head),
    )  # fmt: skip
    grey = Color(0.6, 0.6, 0.6)
    blank = any(not any(row) for row in block.rows)
    rules: list[Any] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("TOPPADDING", (0, 0), (-1, -1), 1.5 * scale**2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 1.5 * scale**2),
        ("LEFTPADDING", (0, 0), (-1, -1), 2),
        ("RIGHTPADDING", (0, 0), (-1, -1), 3),
        ("LINEBELOW", (0, 0), (-1, -1), 0.3, grey),
    ]
    if "measured" in block.head or blank:
        rules.append(("GRID", (0, 0), (-1, -1), 0.3, grey))
    if blank:
        rules.append(("BOTTOMPADDING", (0, len(head)), (-1, -1), 9 * scale))
    table.setStyle(TableStyle(rules))
    return table


def _figure(block: Figure, width: float, look: Look) -> list[Any]:
    from reportlab.platypus import Image

    tall = block.height * 1000 * MM
    if isinstance(block.picture, bytes):
        image = Image(io.BytesIO(block.picture))
        share = min(width / image.imageWidth, tall / image.imageHeight)
        image.drawWidth, image.drawHeight = image.imageWidth * share, image.imageHeight * share
        return [image]
    pieces: list[Any] = [_drawing(block.picture, width, tall)]
    if block.caption:
        pieces.append(_paragraph(block.caption, _style("small", look.scale), look))
    return pieces


def _drawing(picture: Picture, width: float, tall: float) -> Any:  # noqa: ANN401 - of reportlab
    """A flowable that draws the picture as large as the room allows, in the middle."""
    from reportlab.platypus import Flowable

    left, bottom, right, top = picture.box
    scale = min((width - 12) / max(right - left, 1e-6), (tall - 12) / max(top - bottom, 1e-6))

    class Lines(Flowable):
        def wrap(self, aW: float, aH: float) -> tuple[float, float]:
            return width, scale * (top - bottom) + 14

        def draw(self) -> None:
            canvas = self.canv
            shift = (width - scale * (right - left)) / 2
            for patch in picture.patches:
                _draw_patch(canvas, patch, scale, (shift - scale * left, 7 - scale * bottom))
            for words, (x, y) in picture.labels:
                _draw_label(canvas, words, shift + scale * (x - left), 7 + scale * (y - bottom))

    return Lines()


def _draw_patch(canvas: Any, patch: Patch, scale: float, move: tuple[float, float]) -> None:  # noqa: ANN401 - of reportlab
    path = canvas.beginPath()
    for ring in patch.rings:
        for place, (x, y) in enumerate(ring):
            (path.lineTo if place else path.moveTo)(scale * x + move[0], scale * y + move[1])
        if patch.closed:
            path.close()
    canvas.setLineWidth(LINE)
    canvas.setLineJoin(1)
    canvas.setStrokeGray(patch.grey)
    canvas.setDash([MM * 0.6 * value for value in patch.dashes] or [])
    if patch.fill is not None:
        canvas.setFillGray(patch.fill)
    canvas.drawPath(path, stroke=1, fill=int(patch.fill is not None), fillMode=0)
    canvas.setDash([])


def _draw_label(canvas: Any, words: str, x: float, y: float) -> None:  # noqa: ANN401 - of reportlab
    radius = 0.72 * LABEL
    canvas.setStrokeGray(0.0)
    canvas.setFillGray(1.0)
    canvas.setLineWidth(0.4)
    canvas.circle(x, y, radius, stroke=1, fill=1)
    canvas.setFillGray(0.0)
    canvas.setFont(font_of(words, bold=True), LABEL)
    canvas.drawCentredString(x, y - 0.35 * LABEL, words)
