"""Solids of random designs: every part closed, and as heavy as the parts list."""

from types import SimpleNamespace

import pytest
from hypothesis import given, settings
from test_shape_parts import STOCK, built, designs

from foamwright.parts.cutting import cutting_needs
from foamwright.sheets.solid import part_solids, solid_masses

for library in ("trimesh", "manifold3d", "mapbox_earcut"):
    pytest.importorskip(library)


@settings(deadline=None, max_examples=15)
@given(designs())
def test_solids_of_any_plane_weigh_what_the_list_says(design):
    airframe, made = built(design)
    plane = SimpleNamespace(design=design, stock=STOCK, airframe=airframe, parts=made)
    solids = part_solids(plane)
    assert [name for name, mesh in solids.items() if not mesh.is_watertight] == []
    rows = solid_masses(plane, solids)
    assert sum(row.solid for row in rows) == pytest.approx(
        sum(row.listed for row in rows), rel=0.02
    )
    needs = cutting_needs(made.parts)
    assert all(abs(slot.play) < 1e-4 for slot in needs.slots)
