"""The wing's transformed section against a sum over small fibres of the same section."""

import numpy as np
import pytest

from foamwright.strength.cases import one_at_a_time
from foamwright.strength.loads import span_load
from foamwright.strength.named import figures_of
from foamwright.strength.torsion import closed_cell_constant
from foamwright.strength.wing import bend, torsional_stiffness
from foamwright.strength.wing_section import wing_sections
from sample_wing import STOCK, airframe_of, design

PAPER, FOIL, FOAM, THICK = 3.5e9, 0.13e-3, 8e6, 4.76e-3  # the typical light board in stock


def computed(plan):
    airframe = airframe_of(plan)
    sections = wing_sections(plan, airframe, STOCK)
    figures = one_at_a_time(figures_of(plan, STOCK))
    load = span_load(sections.places, sections.chords, mass=0.5, wing_mass=0.15)
    return airframe, bend(sections, figures, load), torsional_stiffness(sections, figures)


def fibres_of_skin(section, *, faces=2):
    """(E dA, z) of a few thousand fibres across the thickness of a folded skin."""
    path = np.array(section.skin_path)
    path = path[np.concatenate([[True], np.hypot(*np.diff(path, axis=0).T) > 1e-9])]
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    places = np.linspace(0.0, along[-1], 8001)
    ends = np.column_stack([np.interp(places, along, path[:, i]) for i in (0, 1)])
    middle = 0.5 * (places[1:] + places[:-1])
    x, z = 0.5 * (ends[1:] + ends[:-1]).T
    run = np.diff(ends, axis=0)
    up = run[:, 0] / np.hypot(*run.T)  # height of the outward normal: on top +1, below -1
    bevel, total = section.lines[0].at, along[-1]
    tail = (middle < bevel) | (middle > total - bevel)
    nose = x < THICK
    step = np.diff(places)
    weights, heights = [step * FOIL * PAPER], [z + 0.5 * THICK * up]
    if faces == 2:
        weights.append(step * FOIL * PAPER * (~tail & ~nose))
        heights.append(z - 0.5 * THICK * up)
    for level in np.linspace(-0.475, 0.475, 20):
        keep = ~nose & (~tail | (level > 0.0))
        weights.append(step * THICK / 20 * FOAM * keep)
        heights.append(z + level * THICK * up)
    return np.concatenate(weights), np.concatenate(heights)


def fibres_of_spar(section, strips=2, wide=0.025):
    x0, z0, _, _ = section.spar_box
    weights, heights = [], []
    for layer in range(strips):
        bottom = z0 + layer * THICK
        weights += [wide * FOIL * PAPER] * 2 + [wide * THICK / 20 * FOAM] * 20
        heights += [bottom, bottom + THICK, *(bottom + THICK * (np.arange(20) + 0.5) / 20)]
    del x0
    return np.array(weights), np.array(heights)


def stiffness_of(*groups):
    weight = np.concatenate([w for w, _ in groups])
    height = np.concatenate([z for _, z in groups])
    axis = float((weight * height).sum() / weight.sum())
    return float((weight * (height - axis) ** 2).sum()), axis


@pytest.mark.parametrize("strips", [0, 1, 2, 3])
def test_folded_section_against_fibres(strips):
    plan = design(wing__spar__strips=strips)
    airframe, bending, _ = computed(plan)
    section = airframe.wing.panels[0].section
    groups = [fibres_of_skin(section)]
    if strips:
        groups.append(fibres_of_spar(section, strips))
    stiffness, axis = stiffness_of(*groups)
    assert bending.stiffness[0, 0] == pytest.approx(stiffness, rel=0.02)
    assert bending.axis[0, 0] == pytest.approx(axis, abs=2e-4)


def test_plate_against_the_sandwich_formula():
    # 190 mm of board: Ef tf d² / 2 + Ec t³ / 12 per width, papers at the faces.
    plan = design(wing__build="plate", wing__spar__strips=0)
    _, bending, _ = computed(plan)
    by_hand = 0.190 * (PAPER * FOIL * THICK**2 / 2 + FOAM * THICK**3 / 12)
    assert bending.stiffness[0, 0] == pytest.approx(by_hand, rel=0.005)


def test_stick_by_the_parallel_axis_rule():
    bare_plan = design(wing__build="plate", wing__spar__strips=0)
    stick = {"kind": "dowel", "stock": "hardwood dowel 1/4 in", "place": "skin bottom"}
    plan = design(wing__build="plate", wing__spar__strips=0, wing__reinforcement=[stick])
    bare = computed(bare_plan)[1].stiffness[0, 0]
    with_stick = computed(plan)[1].stiffness[0, 0]
    area, own = np.pi / 4 * 0.00635**2, np.pi / 64 * 0.00635**4
    board = 0.190 * (2 * PAPER * FOIL + FOAM * THICK)
    rod, apart = 11e9 * area, 0.5 * THICK + 0.003175
    joined = bare + 11e9 * own + board * rod / (board + rod) * apart**2
    assert with_stick == pytest.approx(joined, rel=0.005)


def test_closed_cell_against_the_polygon():
    airframe, _, twist = computed(design())
    path = np.array(airframe.wing.panels[0].section.skin_path)
    x, z = path.T
    area = 0.5 * abs(np.dot(x, np.roll(z, -1)) - np.dot(z, np.roll(x, -1)))
    around = np.hypot(*np.diff(path, axis=0).T).sum()
    wall = 2 * 1.5e9 * FOIL + 3e6 * THICK
    assert twist[0, 0] == pytest.approx(closed_cell_constant(area, around / wall), rel=0.02)
