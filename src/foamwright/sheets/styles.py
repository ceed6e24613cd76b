"""How each kind of line looks and what the builder does along it; told apart in black and white."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LineStyle:
    """One way to draw a line.

    Attributes:
        name: Heading in the legend.
        meaning: What the builder does along it.
        width: Line width. [mm]
        dash: Lengths of ink and gap in turn; empty for a full line. [mm]
        grey: 0 black to 1 white. [-]
    """

    name: str
    meaning: str
    width: float
    dash: tuple[float, ...] = ()
    grey: float = 0.0


STYLES: dict[str, LineStyle] = {
    "cut": LineStyle("CUT", "right through: paper, foam, paper", 0.55),
    "score": LineStyle("SCORE", "top paper and foam; keep the far paper", 0.4, (5.0, 1.8)),
    "crease": LineStyle("CREASE", "dent the paper with a blunt tool; do not cut", 0.4, (0.2, 1.5)),
    "fold": LineStyle(
        "FOLD", "take the foam out between the lines, then fold", 0.4, (7.0, 1.6, 0.6, 1.6)
    ),
    "bevel": LineStyle(
        "BEVEL", "slant the foam from the edge up to this line", 0.3, (2.6, 1.2, 0.5, 1.2, 0.5, 1.2)
    ),
    "mark": LineStyle(
        "MARK", "pencil only: glue lines, datum, balance point", 0.18, (1.4, 0.9), 0.2
    ),
    "board": LineStyle("BOARD EDGE", "edge of the board", 0.25, (), 0.45),
    "note": LineStyle("NOTE", "arrow: paper grain and folds run this way", 0.2, (), 0.25),
}
LEGEND_KINDS = ("cut", "score", "crease", "fold", "bevel", "mark")  # in the order of knife work
BEVEL_TICK = 0.0028  # m, length of the slanted ticks along a bevel line
BEVEL_STEP = 0.010  # m between them
