"""Solids of the plane, read back by a mesh library: closed, and as heavy as the parts list."""

import io
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import pytest

import foam_samples as samples
from foamwright.balance.mass import balance_of
from foamwright.core.errors import OutputError
from foamwright.design.model import Aileron, Attachment, Fuselage, Reinforcement, Tail
from foamwright.parts.build import build_parts, tray_range
from foamwright.shape.airframe import build_airframe
from foamwright.sheets.solid import part_solids, solid_masses, write_solid

trimesh = pytest.importorskip("trimesh")
pytest.importorskip("manifold3d")
pytest.importorskip("mapbox_earcut")


@dataclass
class StandIn:
    """What the solids ask of a plane."""

    design: object
    stock: object

    @cached_property
    def airframe(self):
        return build_airframe(self.design, 0.005)

    @cached_property
    def parts(self):
        return build_parts(self.design, self.airframe, self.stock)

    @cached_property
    def balance(self):
        return balance_of(self.parts, tray=tray_range(self.design, self.airframe))


def plane(**values):
    return StandIn(samples.design(**values), samples.sample_stock())


def tapered():
    panels = (samples.panel(0.4, 0.21, dihedral=0.03), samples.panel(0.3, None, tip_chord=0.15,
              dihedral=0.2, sweep=0.08))  # fmt: skip
    return plane(wing=samples.wing(panels))


PLANES = {
    "trainer": plane,
    "tapered": tapered,
    "stepped": lambda: plane(wing=samples.wing((samples.panel(0.39, 0.17),), build="stepped")),
    "box": lambda: plane(fuselage=Fuselage.model_construct(length=0.9, build="box")),
    "vee": lambda: plane(
        tail=Tail(kind="V"),
        fin=None,
        stab=samples.tail(position=0.75, span=0.5, chord=0.12, dihedral=0.6),
        fuselage=Fuselage.model_construct(length=0.9, build="box"),
    ),
    "tee": lambda: plane(tail=Tail(kind="T")),
    "plate": lambda: plane(
        wing=samples.wing(
            (samples.panel(0.4, 0.12),),
            build="plate",
            bevel=0.03,
            aileron=Aileron(),
            attachment=Attachment.model_construct(kind="bolts", bolts=2),
        )
    ),
    "sticks": lambda: plane(
        wing=samples.wing(
            (samples.panel(0.5, 0.19, dihedral=0.1), samples.panel(0.3, None, dihedral=0.3)),
            reinforcement=(
                Reinforcement.model_construct(
                    kind="craft stick", place="spar bottom", start=0.0, end=0.7, count=2
                ),
                Reinforcement.model_construct(
                    kind="bamboo", place="skin top", start=0.1, end=0.7, count=1
                ),
            ),
        )
    ),
}


@pytest.mark.parametrize("name", PLANES)
def test_every_part_is_closed_and_weighs_what_the_list_says(name):
    made = PLANES[name]()
    solids = part_solids(made)
    assert list(solids) == [part.id for part in made.parts.parts]
    assert all(mesh.is_watertight and mesh.volume > 0.0 for mesh in solids.values())
    rows = solid_masses(made, solids)
    solid, listed = sum(row.solid for row in rows), sum(row.listed for row in rows)
    assert solid == pytest.approx(listed, rel=0.02)
    flat = [row for row in rows if not row.id.startswith("wing-skin")]
    for row in flat:
        # Bevels overlap by a hair where a hinge bends, and run on past a slanted end.
        assert row.solid == pytest.approx(row.listed, rel=1e-3)


def test_bevels_and_holes_are_cut_out():
    made = plane()
    solids, by_id = part_solids(made), {part.id: part for part in made.parts.parts}
    aileron, wall = by_id["aileron-1-right"], by_id["firewall"]
    # Hinge bevel 5 x 5 mm and a tail thinned from 5 to 1 mm over 15.2 mm: half the 35.5 mm chord
    # less the hinge bevel.
    left, bottom, right, top = aileron.outline.bounds
    tail = 0.5 * (top - bottom - 0.005)
    area = (top - bottom) * 0.005 - 0.5 * 0.005**2 - 0.5 * tail * 0.004
    assert solids[aileron.id].volume == pytest.approx((right - left) * area, rel=1e-6)
    holes = [line for line in wall.lines if line.kind == "cut"]
    flat = wall.outline.area * wall.thickness
    # Twelve-sided holes: 3 r^2 each.
    gone = sum(3 * (0.5 * (max(p[0] for p in hole.points) - min(p[0] for p in hole.points))) ** 2
               for hole in holes)  # fmt: skip
    assert len(holes) == 6
    assert solids["firewall"].volume == pytest.approx(flat - gone * wall.thickness, rel=1e-6)


def test_skin_volume_by_hand():
    # A straight 0.5 m panel without ailerons: the shell's volume is near its blank's area times
    # 5 mm less the nose strip and half of both bevels; corners and curves leave a few per cent.
    made = plane(wing=samples.wing((samples.panel(0.5, 0.19),)))
    section = made.airframe.wing.panels[0].section
    fold = next(line for line in section.lines if line.kind == "fold")
    flat = section.blank_length * 0.005 - 0.5 * fold.width * 0.005 - 0.9 * 0.04 * 0.005
    volume = part_solids(made)["wing-skin-1-right"].volume
    assert volume == pytest.approx(0.5 * flat, rel=0.02)


def test_left_and_right_are_mirror_images():
    solids = part_solids(plane())
    right, left = solids["wing-skin-1-right"], solids["wing-skin-1-left"]
    assert left.volume == pytest.approx(right.volume)
    assert np.allclose(left.center_mass * [1, -1, 1], right.center_mass)


def test_skin_lies_on_its_section():
    made = plane(wing=samples.wing((samples.panel(0.5, 0.19),)))
    mesh = part_solids(made)["wing-skin-1-right"]
    panel = made.airframe.wing.panels[0]
    root = mesh.vertices[mesh.vertices[:, 1] < 1e-6] - np.array(panel.root)
    cos, sin = np.cos(panel.root_twist), np.sin(panel.root_twist)
    x = (root[:, 0] * cos - root[:, 2] * sin) / 0.19
    z = (root[:, 0] * sin + root[:, 2] * cos) / 0.19
    upper, lower = np.array(panel.section.upper), np.array(panel.section.lower)
    above = np.interp(x, upper[:, 0], upper[:, 1]) - z
    below = z - np.interp(x, lower[:, 0], lower[:, 1])
    # Every point lies in the outline, and the outer ring lies on it: within 0.02 mm.
    assert min(above.min(), below.min()) > -1e-4
    on = np.minimum(above, below) < 1e-4
    assert on.sum() >= 90


@pytest.mark.parametrize("suffix", [".glb", ".stl"])
def test_files_read_back(tmp_path, suffix):
    made = plane()
    path = write_solid(made, tmp_path / f"plane{suffix}")
    loaded = trimesh.load(io.BytesIO(path.read_bytes()), file_type=suffix[1:])
    span = loaded.bounds[1] - loaded.bounds[0]
    # The two tip plates stand outside the wing.
    assert span[1] == pytest.approx(made.airframe.wing.span + 0.010, abs=2e-3)
    if suffix == ".glb":
        assert {"fin", "rudder", "pack"} <= set(loaded.geometry)


def test_exploded_parts_keep_their_shape(tmp_path):
    made = plane()
    near = trimesh.load(write_solid(made, tmp_path / "a.glb"))
    far = trimesh.load(write_solid(made, tmp_path / "b.glb", exploded=1.0))
    assert far.extents[1] > 1.3 * near.extents[1]
    for name, mesh in near.geometry.items():
        assert far.geometry[name].volume == pytest.approx(mesh.volume, rel=1e-3)


def test_nothing_is_overwritten_silently(tmp_path):
    made = plane()
    path = write_solid(made, tmp_path / "plane.stl")
    with pytest.raises(OutputError):
        write_solid(made, path)
    with pytest.raises(OutputError, match=r"must end in \.glb or \.stl"):
        write_solid(made, tmp_path / "plane.obj")
