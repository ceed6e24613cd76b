"""Learning from pilots' notes of whole flights with one fault of builders' size: is it found?"""

import numpy as np
import pytest

import foamwright
from foamwright.logbook.basis import basis_of
from foamwright.logbook.causes import CAUSES
from foamwright.logbook.change import flown_changes
from foamwright.logbook.evidence import evidence_of
from foamwright.logbook.hidden import quantities_of, spreads_of
from foamwright.logbook.learn import learn
from foamwright.logbook.makers import makers_of
from foamwright.logbook.rehearse_flights import flown_cases

EACH = 3  # builders of each of nine faults
PLANES = ("brindle-cob", "tansy-drift")


@pytest.fixture(scope="module")
def builders():
    planes = [foamwright.load(f"examples/{name}.toml") for name in PLANES]
    return [(plane, flown_cases(plane, EACH, np.random.default_rng(2026))) for plane in planes]


@pytest.mark.slow
def test_the_cause_named_first_is_the_one_flown(builders):
    """At least eight in ten on two planes together, of those where something shows."""
    right = cases = 0
    for plane, flown in builders:
        basis, spreads = basis_of(plane), spreads_of(quantities_of(plane))
        for case in flown:
            makers = makers_of(basis, evidence_of(plane, case.log, basis), spreads=spreads)
            if makers.abnormal:
                cases += 1
                right += CAUSES[1 + int(np.argmax(makers.chances[1:]))].name == case.cause
    assert cases > 4 * EACH
    assert right >= 0.8 * cases, f"{right} of {cases}"


@pytest.mark.slow
def test_the_headline_names_a_fault_and_not_careful_building(builders):
    plane, flown = builders[0]
    case = flown[0]
    lesson = learn(plane, case.log)
    assert lesson.causes[0].name == case.cause == "twist"
    assert "right panel twisted" in lesson.verdict.partition(" and ")[0]
    assert "careful building alone" not in lesson.verdict
    built = flown_changes(plane, lesson)
    assert any(one.kind == "build" and "measure the twist" in one.words for one in built)
