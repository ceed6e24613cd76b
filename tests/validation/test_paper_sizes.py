"""Paper sizes against ISO 216 and ANSI/ASME Y14.1."""

import math

import pytest

from foamwright.sheets.paper import paper_of

# Trimmed sizes in mm: ISO 216, main A series; ANSI/ASME Y14.1, sizes A and B; from memory.
PRINTED = [
    ("A4", 210.0, 297.0, "[ISO216] A series, A4"),
    ("A3", 297.0, 420.0, "[ISO216] A series, A3"),
    ("Letter", 215.9, 279.4, "[Y14.1] size A, 8.5 x 11 in"),
    ("Tabloid", 279.4, 431.8, "[Y14.1] size B, 11 x 17 in"),
]


@pytest.mark.parametrize(("name", "width", "height", "source"), PRINTED)
def test_size(reproduce, name, width, height, source):
    paper = paper_of(name)
    reproduce(
        f"{name}, short side (mm)",
        computed=paper.width * 1000,
        printed=width,
        near=1e-9,
        source=source,
    )
    reproduce(
        f"{name}, long side (mm)",
        computed=paper.height * 1000,
        printed=height,
        near=1e-9,
        source=source,
    )


@pytest.mark.parametrize(("name", "halvings"), [("A3", 3), ("A4", 4)])
def test_iso_rule(reproduce, name, halvings):
    """ISO 216: A0 is 1 m², its sides as 1 to the root of 2; each size is half the one before."""
    ideal = 1000 * 2 ** (-0.25 - halvings / 2)
    source = "[ISO216] rule of the A series, to the millimetre"
    reproduce(
        f"{name}, short side by the rule (mm)",
        computed=paper_of(name).width * 1000,
        printed=ideal,
        near=0.5,
        source=source,
    )
    reproduce(
        f"{name}, side ratio",
        computed=paper_of(name).height / paper_of(name).width,
        printed=math.sqrt(2),
        rel=2e-3,
        source=source,
    )
