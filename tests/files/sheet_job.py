"""An invented set of parts for the drawing tests, typed in inches as a builder would."""

from shapely import Polygon, affinity, box
from shapely.geometry.polygon import orient

from foamwright.core.bands import Band
from foamwright.parts.model import Line, LineKind, Part, Source
from foamwright.sheets.model import Heading

INCH = 0.0254
BOARD = (30 * INCH, 20 * INCH)
GAP, MARGIN = 0.125 * INCH, 0.25 * INCH
HEADING = Heading("Brindle Cob", "light display board", "metric", "all-up 654 g")

SADDLE = [
    (0.0, 0.0), (0.1, 0.316), (0.396, 0.605), (0.873, 0.842), (1.506, 1.007), (2.265, 1.091),
    (3.11, 1.09), (4.0, 1.011), (4.89, 0.869), (5.736, 0.686), (6.494, 0.485), (7.127, 0.295),
    (7.604, 0.138), (8.0, 0.0), (4.8, -0.16), (2.4, -0.16),
]  # fmt: skip
SIDE = [
    (0.0, 1.2), (1.0, 1.9), (6.0, 2.3), (7.0, 3.2), (10.0, 3.4), (14.0, 2.6), (20.0, 1.7),
    (28.5, 1.3), (28.5, 0.1), (20.0, -0.4), (12.0, -1.2), (5.0, -1.4), (1.0, -1.0), (0.0, -0.4),
]  # fmt: skip
WINDOW = [(7.5, 1.3), (2.5, 1.3), (2.5, -0.7), (7.5, -0.7)]


def rectangle(length, width):
    return [(0.0, 0.0), (length, 0.0), (length, width), (0.0, width)]


def disc(diameter):
    ring = Polygon(box(0, 0, 0, 0).centroid.buffer(diameter / 2, quad_segs=6))
    return list(ring.exterior.coords)[:-1]


# name, count, outline in inches
PIECES = [
    ("wing panel", 2, rectangle(29.0, 8.0)),
    ("wing tip", 2, [(0.0, 0.0), (8.0, 0.0), (6.5, 6.0), (1.5, 6.0)]),
    ("spar strip", 6, rectangle(20.0, 1.0)),
    ("long spar", 2, rectangle(29.0, 1.5)),
    ("stab", 1, rectangle(18.0, 4.5)),
    ("elevator", 1, rectangle(18.0, 1.75)),
    ("fin", 1, [(0.0, 0.0), (7.0, 0.0), (6.5, 6.5), (2.5, 6.5)]),
    ("rudder", 1, [(0.0, 0.0), (2.5, 0.0), (2.0, 6.5), (0.0, 6.5)]),
    ("fuselage side", 2, SIDE),
    ("fuselage core", 1, SIDE),
    ("doubler", 2, [(0.0, 0.0), (10.0, 0.0), (8.0, 3.5), (1.0, 3.5)]),
    ("saddle", 4, SADDLE),
    ("rib", 6, [(x * 0.9375, y * 0.7211) for x, y in SADDLE]),
    ("gusset", 4, [(0.0, 0.0), (2.2, 0.0), (0.0, 2.2)]),
    ("small disc", 4, disc(1.5)),
    ("disc", 2, disc(2.5)),
    ("aileron", 2, rectangle(14.0, 1.5)),
]


def board_part(name, number, polygon, *, lines=(), side="", fold=(1.0, 0.0), notes=""):
    return Part(
        id=f"{name.replace(' ', '-')}-{number}",
        name=name,
        kind=name,
        side=side,
        stock="light display board",
        source=Source.BOARD,
        outline=orient(polygon),
        lines=tuple(lines),
        facets=(),
        areal_mass=Band.exact(0.31),
        thickness=0.0048,
        fold_along=fold,
        notes=notes,
    )


def metres(points):
    return [(x * INCH, y * INCH) for x, y in points]


def wing_lines():
    kinds = [
        (LineKind.FOLD, 3.84, "leading edge"), (LineKind.FOLD, 4.16, ""),
        (LineKind.CREASE, 4.96, "crease 1"), (LineKind.SCORE, 5.6, "score"),
        (LineKind.BEVEL, 7.76, "bevel to here"), (LineKind.MARK, 1.6, "spar front"),
    ]  # fmt: skip
    return [Line(k, tuple(metres([(0.0, at), (29.0, at)])), words) for k, at, words in kinds]


def board_parts():
    parts = []
    for name, count, points in PIECES:
        holes = [metres(WINDOW)] if name == "fuselage core" else []
        for number in range(1, count + 1):
            lines, side, notes = (), "", ""
            if name == "wing panel":
                lines, side = wing_lines(), ("left", "right")[number - 1]
                notes = "outside face down; glue the far edge over the near one"
            if name == "fuselage side":
                lines = [Line(LineKind.MARK, tuple(metres([(11.0, -0.8), (11.0, 2.2)])), "CG")]
            polygon = Polygon(metres(points), holes)
            parts.append(board_part(name, number, polygon, lines=lines, side=side, notes=notes))
    return parts


def other_part(name, number, polygon, source, stock, lines=()):
    return Part(
        f"{name.replace(' ', '-')}-{number}", name, name, "", stock, source, orient(polygon),
        tuple(lines), (), Band.exact(2.0), 0.003,
    )  # fmt: skip


def whole_job():
    firewall = box(0, 0, 0.044, 0.05).difference(box(0.020, 0.023, 0.024, 0.027))
    brace = Polygon([(0, 0), (75, -10), (150, 0), (150, 24), (75, 14), (0, 24)])
    brace = affinity.scale(brace, 0.001, 0.001, origin=(0, 0))
    thrust = Line(LineKind.MARK, ((0.022, 0.0), (0.022, 0.05)), "thrust line")
    dowel = box(0, 0, 0.12, 0.00635)
    return (
        *board_parts(),
        board_part("horn plate", 1, box(0, 0, 0.006, 0.005), fold=None),
        other_part("firewall", 1, firewall, Source.PLY, "birch ply 1/8 in", [thrust]),
        other_part("dihedral brace", 1, brace, Source.PLY, "birch ply 1/8 in"),
        other_part("wing dowel", 1, dowel, Source.LENGTH, "hardwood dowel 1/4 in"),
        other_part("wing dowel", 2, dowel, Source.LENGTH, "hardwood dowel 1/4 in"),
        other_part("pushrod", 1, box(0, 0, 0.42, 0.0012), Source.LENGTH, "music wire 1.2 mm"),
    )
