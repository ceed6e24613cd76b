"""Torsion of closed cells, slit cells and rectangles.

Bredt-Batho; Roark table 10.7; Timoshenko & Goodier, Theory of Elasticity, art. 109 (table from
memory).
"""

import pytest

from foamwright.strength.torsion import (
    closed_cell_constant,
    open_section_constant,
    rectangle_factor,
    shear_flow,
)


def test_box(reproduce):
    reproduce(
        "torsion constant of a closed box 100 x 20 mm of 0.13 mm wall, m⁴",
        computed=closed_cell_constant(0.1 * 0.02, 2 * 0.12 / 0.13e-3),
        printed=8666.67e-12,
        rel=1e-3,
        source="Bredt-Batho",
    )
    reproduce(
        "torsion constant of the same box slit open, m⁴",
        computed=open_section_constant(2 * 0.12, 0.13e-3),
        printed=0.17576e-12,
        rel=1e-3,
        source="Roark table 10.7 (from memory)",
    )
    reproduce(
        "shear flow of 0.5 N m round 2000 mm², N/m",
        computed=shear_flow(0.5, 2000e-6),
        printed=125.0,
        rel=1e-3,
        source="Bredt",
    )


@pytest.mark.parametrize(("ratio", "printed"), [(1.0, 0.140577), (2.0, 0.228682), (10.0, 0.312325)])
def test_rectangle(reproduce, ratio, printed):
    reproduce(
        f"torsion factor of a rectangle {ratio:.0f} : 1",
        computed=rectangle_factor(ratio),
        printed=printed,
        rel=1e-3,
        source="Timoshenko & Goodier art. 109 (from memory)",
    )
