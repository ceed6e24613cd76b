"""The sheets and the mass table speak of the same parts: area times areal mass, piece by piece."""

from pathlib import Path

import pytest

import foamwright

EXAMPLES = sorted((Path(__file__).resolve().parents[2] / "examples").glob("*.toml"))


@pytest.mark.parametrize("file", EXAMPLES, ids=lambda file: file.stem)
def test_nested_areas_weigh_what_the_mass_table_says(file):
    plane = foamwright.load(file)
    parts = {part.id: part for part in plane.parts.parts}
    table = {line.id: line.mass.typical for line in plane.balance.lines}
    for placed in plane.layout.placements:
        areal_mass = parts[placed.part_id].areal_mass.typical
        assert placed.outline.area * areal_mass == pytest.approx(table[placed.part_id], rel=1e-6)
    assert sum(table.values()) == pytest.approx(plane.balance.all_up_mass, rel=1e-9)
    weighed = sum(part.mass for part in parts.values())
    bought = sum(item.mass.typical for item in plane.parts.items)
    assert weighed + bought == pytest.approx(plane.balance.all_up_mass, rel=1e-9)
