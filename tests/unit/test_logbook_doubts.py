"""Contradictions named with both entries, what is refused, and what is worth asking."""

from pathlib import Path

import pytest

import foamwright
from foamwright.core.errors import DesignError
from foamwright.logbook.ask import flight_questions, open_questions
from foamwright.logbook.basis import basis_of
from foamwright.logbook.doubts import contradictions, refuse_impossible
from foamwright.logbook.evidence import evidence_of
from foamwright.logbook.model import Log
from foamwright.logbook.store import add_entry, entry_of, log_file, read_log
from foamwright.logbook.version import propose_version

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


UNLIKELY = [
    (weighed("all-up", "1400 g"), "mass", "weigh wing, fuselage, tail, pack by themselves"),
    (weighed("all-up", "240 g"), "mass", "--correct '1.mass=...'"),
    (weighed("sheet", "13 g"), "mass", "weigh it once more"),
    (measured("cg", "60 mm"), "value", "CG 60 mm (entry 1)"),
    (measured("twist right", "25 deg"), "value", "twist right 25 deg"),
    (measured("throw elevator up", "300 mm"), "value", "throw elevator up"),
    (measured("right thrust", "-30 deg"), "value", "right thrust"),
    (("flight", {"minutes": "600"}), "minutes", "time in the air 600"),
    (("flight", {"minutes": "60", "back": "6 mAh"}), "back", "6 mAh in 60 min"),
    (("flight", {"glide_height": "3 m", "glide_distance": "200 m"}), "glide_distance", "200 m"),
    (("flight", {"wind": "60 m/s"}), "wind", "wind 60 m/s"),
    (("flight", {"trim_elevator": "55 deg"}), "trim_elevator", "elevator trim 55 deg"),
    (("heard", {"airspeed": "300 m/s", "spread": "1 m/s"}), "airspeed", "airspeed of the fly-by"),
]  # fmt: skip


@pytest.mark.parametrize(("row", "key", "words"), UNLIKELY)
def test_what_no_build_can_give_is_doubted_and_left_out(plane, row, key, words):
    (doubt,) = contradictions(log(row), plane)
    assert doubt.numbers == (1,)
    assert doubt.keys == (key,)
    assert words in doubt.words
    seen = evidence_of(plane, log(row), basis_of(plane)).seen
    assert not [one for one in seen if one.key not in ("minutes",)]


@pytest.mark.parametrize("row", [row for row, _, _ in UNLIKELY])
def test_read_once_more_it_is_believed(plane, row):
    assert contradictions(log(row, row), plane) == ()


def test_parts_that_come_to_it_confirm_a_heavy_plane(plane):
    heavy = log(weighed("wing", "560 g"), weighed("fuselage", "520 g"), weighed("tail", "120 g"),
                weighed("pack", "140 g"), weighed("all-up", "1400 g"))  # fmt: skip
    assert contradictions(heavy, plane) == ()
    assert [one.key for one in evidence_of(plane, heavy, basis_of(plane)).seen] == ["all-up"]


def test_a_typo_leaves_the_rest_of_its_flight(plane):
    flown = log(("flight", {"minutes": "6", "back": "2600 mAh", "stall": "drops left"}))
    seen = evidence_of(plane, flown, basis_of(plane))
    assert [one.key for one in seen.seen] == ["stall"]
    assert seen.left_out == (1,)


def test_a_typo_at_the_weigh_in_drives_no_version(plane):
    version = propose_version(plane, log(weighed("all-up", "1400 g")), mend=False)
    assert version.changes == ()
    assert version.lesson.contradictions[0].numbers == (1,)


def test_a_doubt_names_the_line_of_the_file(plane, tmp_path):
    file = tmp_path / "cob.toml"
    add_entry(file, "note", {"note": "dew"})
    add_entry(file, "weighed", {"what": "all-up", "mass": "1400 g"})
    entry = read_log(file).entries[1]
    text = log_file(file).read_text(encoding="utf-8").splitlines()
    assert text[entry.line - 1] == "[[entry]]"
    assert text[entry.line] == 'kind = "weighed"'
    (doubt,) = contradictions(read_log(file), plane)
    assert f"entry 2, line {entry.line} of the logbook" in doubt.words


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
