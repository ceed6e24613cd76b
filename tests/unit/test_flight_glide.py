"""The glide with an idle propeller, on a typed-in plane."""

from dataclasses import replace

import pytest

from foamwright.core.air import GRAVITY
from foamwright.flight.glide import glides
from foamwright.power.propeller import propeller_of
from plane_samples import AERO, POWER

MASS, DENSITY = 0.56, 1.225


def test_folding_blades_glide_best():
    folding = replace(POWER.train, propeller=propeller_of("folding", 0.2159, pitch=0.1524))
    ratio = {g.state: g.ratio for g in glides(AERO, folding, MASS, density=DENSITY)}
    assert ratio["folded"] > ratio["braked"]
    assert ratio["folded"] > ratio["free"]


def test_blades_that_do_not_fold_have_two_states():
    answers = glides(AERO, POWER.train, MASS, density=DENSITY)
    assert [g.state for g in answers] == ["free", "braked"]
    for glide in answers:
        # at the speed of best glide the sink is speed over ratio, so the least is no larger
        assert glide.least_sink <= glide.speed / glide.ratio + 1e-9


def test_braked_drag_is_that_of_plates():
    # two blades of 0.136 R² each, coefficient 1; at speed V it takes q A from L/D
    answer = glides(AERO, POWER.train, MASS, density=DENSITY)[1]
    radius = 0.5 * POWER.train.propeller.diameter
    plate = 0.5 * DENSITY * answer.speed**2 * 2 * 0.136 * radius**2
    clean = 1.0 / answer.ratio - plate / (MASS * GRAVITY)
    assert clean > 0.0
    assert 1.0 / clean == pytest.approx(AERO.max_lift_drag, rel=0.25)
