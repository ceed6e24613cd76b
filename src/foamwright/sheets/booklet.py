"""Part by part: each kind of part drawn to fit, with every measure needed to mark it by ruler."""

import io
import math
from collections.abc import Sequence

from shapely import Polygon

from foamwright.parts.model import Part, Source
from foamwright.sheets.drawing import part_strokes
from foamwright.sheets.measures import PartMeasures, measures_of
from foamwright.sheets.metrics import words_length
from foamwright.sheets.model import Heading, Placement, Stroke
from foamwright.sheets.paper import Paper
from foamwright.sheets.pen import (
    PER_METRE,
    Canvas,
    draw_legend,
    draw_strokes,
    new_canvas,
    start_page,
    write_line,
)
from foamwright.sheets.place import turned
from foamwright.sheets.templates import alike
from foamwright.sheets.words import PartWords, length_words, part_words, wrapped

EDGE = 12.0  # mm
TALLEST = 92.0  # mm, of a drawing
BESIDE = 24.0  # mm left of a drawing for its height
SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0)  # one to so many
ROW = 4.1  # mm, a line of a table
TYPE = 2.9  # mm
TAGS = 4  # places along a line where its number may stand, so that near lines keep theirs apart

type Kind = tuple[Part, int, str]  # the part drawn, how many are cut, words on sides


def write_booklet_pdf(parts: Sequence[Part], *, heading: Heading, paper: Paper) -> bytes:
    """Draw each kind of part on its own, with its lines and corners measured from two edges.

    Drawings are reduced to fit and state their scale: the measures count, not the drawing.

    Args:
        parts: All parts of the plane; sticks and tapes stand with the templates instead. [-]
        heading: What the sheets say about the plane. [-]
        paper: Paper of the booklet. [-]

    Returns:
        The PDF file. [-]

    Source:
        Definition; dimensions as in ISO 129-1.

    Example:
        >>> write_booklet_pdf(parts, heading=heading, paper=paper)[:4]
        b'%PDF'
    """
    page = (paper.width * PER_METRE, paper.height * PER_METRE)
    buffer = io.BytesIO()
    canvas = new_canvas(buffer, f"{heading.plane}: part by part")
    words = part_words(parts, heading.units)
    y = _front(canvas, heading, page)
    flat = [part for part in parts if part.source in (Source.BOARD, Source.PLY)]
    for kind in kinds_of(flat):
        block = _Block(kind, words[kind[0].id], heading.units, page[0] - 2 * EDGE)
        if y - block.height < EDGE:
            canvas.showPage()
            start_page(canvas, *page)
            y = page[1] - EDGE
        y = block.draw(canvas, y)
    canvas.showPage()
    canvas.save()
    return buffer.getvalue()


def kinds_of(parts: Sequence[Part]) -> list[Kind]:
    """Gather parts that are cut alike; a mirror image is counted with its original.

    Args:
        parts: Parts. [-]

    Returns:
        The part to draw, how many are cut, and words on their sides. [-]

    Source:
        Definition.

    Example:
        >>> kinds_of([])
        []
    """
    known = {part.id for part in parts}
    mirrored = [part for part in parts if part.mirrored_of in known]
    rest = [part for part in parts if part.mirrored_of not in known]
    found: list[Kind] = []
    for first, ids in alike(rest):
        images = sum(part.mirrored_of in ids for part in mirrored)
        side = f"{first.side} " if first.side else ""
        words = f"{len(ids)} {side}as drawn, {images} in mirror image" if images else ""
        found.append((first, len(ids) + images, words))
    return found


def _front(canvas: Canvas, heading: Heading, page: tuple[float, float]) -> float:
    start_page(canvas, *page)
    y = page[1] - EDGE - 6.0
    write_line(canvas, EDGE, y, f"{heading.plane}: part by part", size=7.0, bold=True)
    for line in (
        "Drawings are reduced: the measures count, each from the left end or the lower edge.",
        "With these a part can be marked out with ruler and square, without a full-size print.",
        "Numbers on a drawing are those of the lines in the table under it.",
    ):
        y -= 5.0
        write_line(canvas, EDGE, y, line, size=3.2)
    draw_legend(canvas, EDGE, y - 7.0)
    return y - 44.0


class _Block:
    """One part of the booklet: how tall it is, and how it is drawn."""

    def __init__(self, kind: Kind, words: PartWords, units: str, room: float) -> None:
        self.part, self.count, sides = kind
        self.units, self.room = units, room
        self.turn = self._turn()
        self.measures: PartMeasures = measures_of(self.part, self.turn, units)
        left, bottom, right, top = turned(self.part.outline, self.turn).bounds
        self.size = ((right - left) * PER_METRE, (top - bottom) * PER_METRE)
        fit = max(self.size[0] / (room - BESIDE - 4.0), self.size[1] / TALLEST)
        self.ratio = next((ratio for ratio in SCALES if ratio >= fit), fit)
        name = self.part.name if self.part.side and sides else words.name
        self.title = f"{name}: {self.count} off"
        facts = [words.size, words.stock, f"drawn 1 : {self.ratio:g}", sides]
        self.facts = " · ".join(fact for fact in facts if fact)
        self.rows = self._rows(words)

    def _turn(self) -> float:
        """Fold direction level; else the longer side level."""
        fold = self.part.fold_along
        if fold is not None:
            return -math.atan2(fold[1], fold[0])
        left, bottom, right, top = self.part.outline.bounds
        return math.pi / 2 if top - bottom > 1.2 * (right - left) else 0.0

    def _rows(self, words: PartWords) -> list[str]:
        per_row = int(self.room / (0.5 * TYPE))
        rows = [*wrapped(words.notes, per_row)]
        for line in self.measures.lines:
            rows += wrapped(line, per_row)
        for line in self.measures.others:
            rows += wrapped(line, per_row)
        return rows

    @property
    def height(self) -> float:
        """Room that it takes. [mm]."""
        return self.size[1] / self.ratio + 32.0 + ROW * len(self.rows)

    def draw(self, canvas: Canvas, top: float) -> float:
        """Draw it from a level downwards; hands back the level under it. [mm]."""
        y = top - 9.0
        write_line(canvas, EDGE, y, self.title, size=4.4, bold=True)
        y -= 5.2
        write_line(canvas, EDGE, y, self.facts, size=TYPE)
        long, tall = self.size[0] / self.ratio, self.size[1] / self.ratio
        corner = (EDGE + BESIDE, y - 5.0 - tall)
        self._picture(canvas, corner)
        self._overall(canvas, corner, (long, tall))
        y = corner[1] - 10.0
        for row in self.rows:
            write_line(canvas, EDGE, y, row, size=TYPE)
            y -= ROW
        return y - 2.0

    def _picture(self, canvas: Canvas, corner: tuple[float, float]) -> None:
        flat = turned(self.part.outline, self.turn)
        left, bottom, _, _ = flat.bounds
        outline: Polygon = turned(self.part.outline, self.turn, -left, -bottom)
        placement = Placement(self.part.id, 0, self.turn, -left, -bottom, outline)
        foot = (corner[0] / PER_METRE, corner[1] / PER_METRE)
        strokes = [
            Stroke(
                stroke.kind,
                tuple((foot[0] + x / self.ratio, foot[1] + y / self.ratio) for x, y in points),
                stroke.closed,
            )
            for stroke in part_strokes(self.part, placement)
            if (points := stroke.points)
        ]
        draw_strokes(canvas, strokes)
        canvas.setDash([])
        for number, (x, y) in enumerate(self.measures.tags, 1):
            slot = number % TAGS
            at = (
                corner[0] + x[slot] * PER_METRE / self.ratio,
                corner[1] + y[slot] * PER_METRE / self.ratio,
            )
            canvas.setFillGray(1.0)
            wide = words_length(str(number), 2.6) + 0.8
            canvas.rect(at[0] - wide / 2, at[1] - 1.3, wide, 2.6, stroke=0, fill=1)
            write_line(canvas, at[0] - wide / 2 + 0.4, at[1] - 0.95, str(number), size=2.6)

    def _overall(
        self, canvas: Canvas, corner: tuple[float, float], size: tuple[float, float]
    ) -> None:
        """Length under the drawing, width left of it."""
        canvas.setLineWidth(0.15)
        canvas.setStrokeGray(0.0)
        low, side = corner[1] - 3.5, corner[0] - 4.0
        canvas.line(corner[0], low, corner[0] + size[0], low)
        canvas.line(side, corner[1], side, corner[1] + size[1])
        for x in (corner[0], corner[0] + size[0]):
            canvas.line(x, low - 1.2, x, corner[1] - 0.8)
        for y in (corner[1], corner[1] + size[1]):
            canvas.line(side - 1.2, y, corner[0] - 0.8, y)
        long, tall = (length_words(value / PER_METRE, self.units) for value in self.size)
        at = corner[0] + size[0] / 2 - words_length(long, TYPE) / 2
        write_line(canvas, at, low - 3.6, long, size=TYPE)
        at = side - 1.5 - words_length(tall, TYPE)
        write_line(canvas, at, corner[1] + size[1] / 2 - 1.0, tall, size=TYPE)
