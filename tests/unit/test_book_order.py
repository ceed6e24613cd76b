"""Order, longest chain and time plan against cases worked by hand."""

import pytest

from foamwright.book.hours import free_hours, plan_time
from foamwright.book.model import Step
from foamwright.book.order import longest_chain, ordered
from foamwright.core.errors import DesignError, ModelError

MIN = 60.0


def step(name, needs="", hands=0, wait=0):
    return Step(name, name, needs=tuple(needs.split()), hands=hands * MIN, wait=wait * MIN)


# Worked by hand. Work + setting in minutes:
#   cut 30+0; spar 20+60 and skin 25+0 need cut; wing 40+30 needs spar and skin;
#   body 35+45 needs cut; tail 15+10 needs cut; join 20+0 needs wing, body and tail.
# Chains: cut spar wing join = 30 + 80 + 70 + 20 = 200
#         cut skin wing join = 30 + 25 + 70 + 20 = 145
#         cut body join      = 30 + 80 + 20      = 130
#         cut tail join      = 30 + 25 + 20      = 75
HAND = (
    step("join", "wing body tail", 20),
    step("tail", "cut", 15, 10),
    step("body", "cut", 35, 45),
    step("wing", "spar skin", 40, 30),
    step("skin", "cut", 25),
    step("spar", "cut", 20, 60),
    step("cut", "", 30),
)


def test_longest_chain_worked_by_hand():
    chain = longest_chain(HAND)
    assert chain.ids == ("cut", "spar", "wing", "join")
    assert chain.duration == 200 * MIN


def test_the_order_puts_the_longest_way_first():
    # behind: spar 170, skin 115, wing 90, body 100, tail 45
    names = [one.id for one in ordered(HAND)]
    assert names == ["cut", "spar", "skin", "body", "wing", "tail", "join"]


def test_one_long_session_worked_by_hand():
    """With one pair of hands: work while the spar sets.

    0-30 cut, 30-50 spar (sets till 110), 50-75 skin, 75-110 body (sets till 155),
    110-150 wing (sets till 180), 150-165 tail, wait, 180-200 join.
    """
    plan = plan_time(HAND, free_hours("Sat 5 h"))
    booked = [(b.step, b.start / MIN, b.end / MIN) for b in plan.bookings]
    assert booked == [
        ("cut", 0, 30),
        ("spar", 30, 50),
        ("skin", 50, 75),
        ("body", 75, 110),
        ("wing", 110, 150),
        ("tail", 150, 165),
        ("join", 180, 200),
    ]


def test_glue_sets_overnight_and_nothing_comes_before_its_need():
    plan = plan_time(HAND, free_hours("Fri 50 min, Sat 2 h, Sun 1 h"))
    by_name = {b.step: b for b in plan.bookings if not b.split}
    # Saturday: 0-25 skin, 25-60 body, 60-100 wing; the spar has set since Friday.
    assert (by_name["wing"].session, by_name["wing"].start) == (1, 60 * MIN)
    for one in HAND:
        for need in one.needs:
            first, then = by_name[need], by_name[one.id]
            assert (first.session, first.end) <= (then.session, then.start)
    assert all(b.end <= plan.sessions[b.session].duration + 1e-6 for b in plan.bookings)


def test_too_few_hours_are_repeated_and_long_steps_broken_off():
    plan = plan_time([step("cut", "", 150)], free_hours("Fri 1 h"))
    assert len(plan.sessions) == 3
    assert plan.asked == 1
    assert [(b.end - b.start, b.split) for b in plan.bookings] == [
        (3600, True),
        (3600, True),
        (1800, False),
    ]


def test_rings_and_missing_steps_are_named():
    with pytest.raises(ModelError, match="in a ring: a, b"):
        ordered([step("a", "b"), step("b", "a")])
    with pytest.raises(ModelError, match="'a' needs 'glue', which is no step"):
        ordered([step("a", "glue")])


@pytest.mark.parametrize(
    ("words", "match"),
    [("Fri", "hours is"), ("Fri 2 kg", "hours is"), ("Fri 2 s", "5 min to 24 h"), ("", "hours")],
)
def test_hours_that_cannot_be_read(words, match):
    with pytest.raises(DesignError, match=match):
        free_hours(words)


def test_hours_as_people_say_them():
    sessions = free_hours("Fri 2 h, Sat 5 h, 90 min, evening 2: 2 h")
    assert [(s.name, s.duration / 3600) for s in sessions] == [
        ("Fri", 2),
        ("Sat", 5),
        ("session 3", 1.5),
        ("evening 2", 2),
    ]
