"""Learning from pilots' notes of whole flights with one fault of builders' size: is it found?"""

import numpy as np
import pytest

import foamwright
from foamwright.logbook.basis import basis_of
from foamwright.logbook.causes import CAUSES
from foamwright.logbook.evidence import evidence_of
from foamwright.logbook.hidden import quantities_of, spreads_of
from foamwright.logbook.learn import learn
from foamwright.logbook.makers import makers_of
from foamwright.logbook.rehearse_flights import flown_cases

EACH = 4  # builders of each of nine faults


@pytest.mark.slow
def test_the_cause_named_first_is_the_one_flown():
    """At least eight in ten on two planes together, of those where something shows."""
    right = cases = 0
    for name in ("brindle-cob", "tansy-drift"):
        plane = foamwright.load(f"examples/{name}.toml")
        basis, spreads = basis_of(plane), spreads_of(quantities_of(plane))
        for case in flown_cases(plane, EACH, np.random.default_rng(2026)):
            makers = makers_of(basis, evidence_of(plane, case.log, basis), spreads=spreads)
            if makers.abnormal:
                cases += 1
                right += CAUSES[1 + int(np.argmax(makers.chances[1:]))].name == case.cause
    assert cases > 4 * EACH
    assert right >= 0.8 * cases, f"{right} of {cases}"


@pytest.mark.slow
def test_the_headline_names_a_fault_and_not_careful_building():
    plane = foamwright.load("examples/brindle-cob.toml")
    case = flown_cases(plane, 1, np.random.default_rng(1))[0]
    lesson = learn(plane, case.log)
    assert lesson.causes[0].name == case.cause == "twist"
    assert lesson.verdict.startswith("Most likely")
    assert "careful building alone" not in lesson.verdict
