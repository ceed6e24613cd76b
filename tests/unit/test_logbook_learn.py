"""What builders describe, what stands behind it, and what learning says: one row a symptom."""

import time

import numpy as np
import pytest

from foamwright.logbook.causes import CAUSES
from foamwright.logbook.learn import learn
from foamwright.logbook.model import Log
from foamwright.logbook.outcomes import SCALES, answers_of, reading_chance, tick_chances
from foamwright.logbook.store import entry_of

GOOD = {
    "launch": "flew", "roll_slow": "none", "roll_fast": "none", "roll_glide": "none",
    "yaw_power": "none", "power_on": "climbs gently", "power_off": "glides",
    "dive_test": "eases out", "pitch_feel": "good", "stall": "mushes straight", "glide": "as told",
}  # fmt: skip


def flight(number=1, **said):
    return entry_of("flight", {**GOOD, **said}, number=number)


def measured(number, what, value):
    return entry_of("measured", {"what": what, "value": value}, number=number)


def taught(plane, *entries):
    return learn(plane, Log(tuple(entries)))


def explained(lesson, key):
    return next((one for one in lesson.explanations if key in one.keys), None)


LEFT = {"roll_slow": "left", "roll_fast": "left", "roll_glide": "left"}
NOT_STALLED = {key: said for key, said in GOOD.items() if key != "stall"}
# Symptoms as builders describe them (common practice, no source) -> what makes them, what mends.
ROWS = [
    ("rolls the same way power on and off", LEFT, "roll_fast", "twist_difference", "untwist"),
    ("turns left only with power", {"yaw_power": "left"}, "yaw_power", "right_thrust",
     "right_thrust"),
    # Strong thrust rears it up as well, so what the climb is like tells the two apart.
    ("climbs with throttle", {"power_on": "climbs hard", "climb": "good"}, "power_on",
     "down_thrust", "down_thrust"),
    ("dive test tucks under", {"dive_test": "tucks under", "pitch_feel": "twitchy"}, "dive_test",
     "cg_aft", "pack"),
    ("dive test pulls out hard", {"dive_test": "pulls out hard", "pitch_feel": "soggy"},
     "dive_test", "cg_aft", "pack"),
    ("twitchy pitch", {"pitch_feel": "twitchy"}, "pitch_feel", "cg_aft", None),
    ("a wing drops at the stall", {"stall": "drops left", "roll_fast": "right"}, "stall",
     "twist_difference", None),
    ("glides like a brick", {"glide": "like a brick", "glide_height": "30 m",
                             "glide_distance": "150 m"}, "glide", "drag", None),
]  # fmt: skip


@pytest.mark.parametrize(("name", "said", "key", "quantity", "action"), ROWS,
                         ids=[row[0] for row in ROWS])  # fmt: skip
def test_symptoms_of_the_trade(cob, name, said, key, quantity, action):
    # Seen twice: one tick alone may be a gust or the wrong box.
    good = NOT_STALLED if key == "roll_fast" else GOOD
    rows = [entry_of("flight", {**good, **said}, number=number) for number in (1, 2)]
    lesson = taught(cob, *rows)
    found = explained(lesson, key)
    assert found is not None, lesson.explanations
    assert found.name == quantity, lesson.explanations
    if action is not None:
        assert action in [change.name for change in lesson.adjustments], lesson.adjustments


def test_twist_and_not_the_thrust_line(cob):
    """A roll at every speed, power on and off, with the trim that it took."""
    trimmed = flight(2, **LEFT, trim_aileron="1.5 deg")
    lesson = taught(cob, flight(1, **LEFT, stall="drops right"), trimmed)
    twist = next(one for one in lesson.learned if one.name == "twist_difference")
    assert twist.after[0] > np.radians(0.3)
    assert "right panel twisted nose up of the left" in lesson.verdict
    assert "hardly from thrust line, sideways" in lesson.verdict
    thrust = [one for one in lesson.learned if one.name == "right_thrust"]
    assert not thrust or thrust[0].after[0] < 0.0 < thrust[0].after[2]


def test_slow_only_is_weight_and_all_speeds_is_twist(cob):
    """The trim of a heavy tip falls with speed, that of a twist does not."""
    slow = taught(cob, flight(roll_slow="left", roll_glide="left", trim_aileron="0.5 deg"),
                  measured(2, "twist right", "0 deg"),
                  measured(3, "twist left", "0 deg"))  # fmt: skip
    fast = taught(cob, flight(**LEFT, stall="drops right"))

    def chance(lesson, name):
        return next(one.chance for one in lesson.causes if one.name == name)

    assert chance(slow, "tip_mass") > chance(fast, "tip_mass")
    assert chance(fast, "twist") > chance(slow, "twist")


def test_a_measurement_settles_it(cob):
    seen = flight(dive_test="tucks under", pitch_feel="twitchy")
    before = taught(cob, seen)
    aft = 1000 * cob.balance.cg[0] + 15
    after = taught(cob, seen, measured(2, "cg", f"{aft:.0f} mm"))
    assert before.tests[0].key == "cg"
    assert next(c for c in after.causes if c.name != "none").name == "cg"
    assert after.verdict.startswith("Most likely CG too far aft")
    cg = next(one for one in after.learned if one.name == "cg_aft")
    assert cg.after[1] == pytest.approx(0.015, abs=0.003)


def test_an_empty_logbook_says_so(cob):
    lesson = learn(cob, Log())
    assert lesson.verdict == "The logbook holds nothing yet that tells about the plane."
    assert lesson.learned == ()
    assert lesson.adjustments == ()
    assert all("cannot say" in one.words for one in lesson.cannot_say)
    assert lesson.causes[0].name == "none"


def test_what_flights_cannot_tell_is_not_told(cob):
    lesson = taught(cob, flight(yaw_power="left"))
    assert {"lift_max", "throw_speed"} <= {one.name for one in lesson.cannot_say}


def test_both_sides_of_a_contradiction_are_named_and_left_out(cob):
    right = 1000 * cob.balance.cg[0]
    lesson = taught(cob, measured(1, "cg", f"{right:.0f} mm"),
                    measured(2, "cg", f"{right + 30:.0f} mm"))  # fmt: skip
    assert lesson.contradictions[0].numbers == (1, 2)
    assert "cg_aft" in {one.name for one in lesson.cannot_say}
    assert any("entries 1, 2" in note for note in lesson.notes)


def test_a_wrong_box_is_noticed(cob):
    lesson = taught(cob, flight(1, roll_glide="right", roll_slow="left", roll_fast="left"),
                    flight(2, **LEFT, trim_aileron="2 deg"))  # fmt: skip
    assert [one.number for one in lesson.misfits] == [1] or lesson.contradictions


def test_a_moved_pack_is_taken_into_account(cob):
    """A CG measured after the pack was moved says nothing new about where it was computed."""
    share = cob.train.pack.mass.typical / cob.balance.all_up_mass
    moved = cob.design.pack.position + 0.05
    place = cob.balance.cg[0] + 0.05 * share
    lesson = taught(cob, measured(1, "pack position", f"{1000 * moved:.1f} mm"),
                    measured(2, "cg", f"{1000 * place:.1f} mm"))  # fmt: skip
    cg = next(one for one in (*lesson.learned, *lesson.cannot_say) if one.name == "cg_aft")
    assert abs(cg.after[1]) < 0.0005


def test_it_is_quick(cob):
    steps = []
    start = time.perf_counter()
    log = Log((flight(**LEFT),))
    learn(cob, log, progress=lambda step, done: steps.append((step, done)))
    assert time.perf_counter() - start < 60.0
    assert steps[-1][1] == 1.0
    assert len(steps) > 2


@pytest.mark.parametrize("key", ["launch", *SCALES])
def test_chances_of_answers_sum_to_one(key):
    names = ("sink", "bank", "pitch", *(scale.shown for scale in SCALES.values()))
    shown = {name: np.linspace(-3.0, 3.0, 7) for name in names}
    chances = tick_chances(key, shown)
    assert chances.shape == (7, len(answers_of(key)))
    assert np.allclose(chances.sum(axis=1), 1.0)
    assert (chances > 0.0).all()


def test_a_slip_is_not_taken_at_its_word():
    """Three standard deviations off: the narrow part has 0.011 of its peak, the slip 0.005."""
    off = reading_chance(3.0, 1.0, np.array([0.0]))[0]
    # 0.97 exp(-4.5) + 0.03/5 exp(-0.18)
    assert off == pytest.approx(0.97 * 0.011109 + 0.006 * 0.835270, rel=1e-4)


def test_every_cause_has_words_for_both_sides():
    assert all(all(cause.names) for cause in CAUSES if cause.wide)
