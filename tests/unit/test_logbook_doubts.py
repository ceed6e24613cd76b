"""Contradictions named with both entries, what is refused, and what is worth asking."""

from pathlib import Path

import pytest

import foamwright
from foamwright.core.errors import DesignError
from foamwright.logbook.ask import flight_questions, open_questions
from foamwright.logbook.doubts import contradictions, refuse_impossible
from foamwright.logbook.model import Log
from foamwright.logbook.store import entry_of

COB = Path(__file__).parents[2] / "examples" / "brindle-cob.toml"


@pytest.fixture(scope="module")
def plane():
    return foamwright.load(COB)


def log(*rows):
    """Rows of (kind, said); days all the same."""
    return Log(
        tuple(
            entry_of(kind, said, number=number, when="2026-05-02")
            for number, (kind, said) in enumerate(rows, 1)
        )
    )


def weighed(what, mass):
    return "weighed", {"what": what, "mass": mass}


def measured(what, value):
    return "measured", {"what": what, "value": value}


CASES = [
    ((weighed("all-up", "642 g"), weighed("all-up", "690 g")), (1, 2), "all-up: 642 g in entry 1"),
    ((measured("cg", "221 mm"), measured("cg", "240 mm")), (1, 2), "nothing was changed"),
    ((measured("twist left", "1 deg"), measured("twist left", "-2 deg")), (1, 2), "twist left"),
    ((weighed("wing", "700 g"), weighed("all-up", "642 g")), (1, 2), "more than the whole"),
    (
        (weighed("wing", "300 g"), weighed("fuselage", "350 g"), weighed("all-up", "642 g")),
        (1, 2, 3),
        "wing, fuselage together weigh 650 g",
    ),
    (
        (("flight", {"roll_slow": "left"}), ("flight", {"roll_slow": "right"})),
        (1, 2),
        "roll_slow: 'left' in entry 1, 'right' in entry 2",
    ),
    ((("flight", {"back": "2600 mAh"}),), (1,), "put back 2600 mAh, the pack holds 1500"),
    ((measured("cg", "2 m"),), (1,), "the plane reaches from 0 to 36 in"),
]


@pytest.mark.parametrize(("rows", "numbers", "words"), CASES)
def test_contradictions_name_their_entries(plane, rows, numbers, words):
    found = contradictions(log(*rows), plane)
    assert [doubt.numbers for doubt in found] == [numbers]
    assert words in found[0].words


@pytest.mark.parametrize(
    "rows",
    [
        (weighed("all-up", "642 g"), ("repair", {"what": "nose", "mass": "40 g"}),
         weighed("all-up", "690 g")),
        (measured("cg", "221 mm"), measured("pack position", "120 mm"), measured("cg", "240 mm")),
        (weighed("all-up", "642 g"), weighed("all-up", "644 g")),
        (("flight", {"roll_slow": "left"}),
         ("flight", {"roll_slow": "right", "trim_aileron": "3 deg"})),
    ],
)  # fmt: skip
def test_what_a_change_explains_is_no_contradiction(plane, rows):
    assert contradictions(log(*rows), plane) == ()


def test_days_that_run_backwards():
    first = entry_of("note", {"note": "a"}, number=1, when="2026-05-02")
    second = entry_of("note", {"note": "b"}, number=2, when="2026-05-01")
    assert contradictions(Log((first, second)))[0].numbers == (1, 2)


@pytest.mark.parametrize(
    ("kind", "said", "match"),
    [
        (*measured("cg", "2 m"), "CG is 78 3/4 in aft of the nose; the plane reaches from 0 to 36"),
        (*measured("cg", "-2 mm"), "Measure from the nose"),
        (*weighed("all-up", "65 kg"), "Check the unit"),
    ],
)
def test_what_this_plane_cannot_be_is_refused(plane, kind, said, match):
    with pytest.raises(DesignError, match=match):
        refuse_impossible(plane, entry_of(kind, said))


def test_only_what_is_not_known_is_asked(plane):
    names = [question.what for question in open_questions(plane, Log())]
    assert names[:2] == ["all-up", "cg"]
    known = log(weighed("all-up", "642 g"), measured("cg", "221 mm"), ("flight", {}))
    assert [q.what for q in open_questions(plane, known)] == [
        "pack position",
        "twist right",
        "twist left",
    ]
    mended = log(weighed("all-up", "642 g"), ("repair", {"what": "nose"}), ("flight", {}))
    assert open_questions(plane, mended)[0].what == "all-up"


def test_a_settled_tick_is_not_asked_again():
    assert "launch" in [q.key for q in flight_questions(Log())]
    flown = log(
        ("flight", {"launch": "flew"}), ("flight", {"launch": "flew", "stall": "drops left"})
    )
    keys = [q.key for q in flight_questions(flown)]
    assert "launch" not in keys
    assert "stall" in keys
