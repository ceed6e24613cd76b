"""Solved changes on a toy plane with two rules that pull against each other."""

from dataclasses import dataclass
from types import SimpleNamespace

import pytest

from foamwright.checks.changes import WANTED, changes_for, with_changes
from foamwright.checks.judge import Finding, Rule, check_of, finding_of
from foamwright.checks.levers import Lever, Step
from foamwright.core.errors import DesignError
from foamwright.core.verdicts import Verdict


@dataclass(frozen=True)
class Toy:
    """A tail that must be big enough, and a mass that must not be too big."""

    span: float = 0.30
    layers: int = 1

    def with_values(self, values):
        made = Toy(**{"span": self.span, "layers": self.layers} | values)
        if made.span > 0.6:
            raise DesignError("span", f"{made.span}", "at most 0.6")
        return made

    @property
    def balance(self):
        return SimpleNamespace(all_up_mass=0.4 + 0.1 * self.span * self.layers)

    @property
    def design(self):
        return SimpleNamespace(units="metric")


def span_lever(plane, finding):
    del finding
    steps = [
        Step({"span": round(0.305 + 0.005 * n, 3)}, f"span {305 + 5 * n} mm instead of 300 mm")
        for n in range(100)
    ]
    return (Lever("span", tuple(steps)),)


def layer_lever(plane, finding):
    del finding
    return (Lever("layers", (Step({"layers": 2}, "2 layers instead of 1"),)),)


def rule(name, find, levers):
    return Rule(name, f"Title of {name}", "-", "", "assumed", "tail", find, levers)


SIZE = rule("size", lambda p: Finding(p.span, "Words.", low=0.35), span_lever)
MASS_WIDE = rule(
    "mass", lambda p: Finding(p.balance.all_up_mass, "Words.", high=1.0), lambda p, f: ()
)
MASS_TIGHT = rule(
    "mass", lambda p: Finding(p.balance.all_up_mass, "Words.", high=0.4531), lambda p, f: ()
)


def run(rules, plane):
    def verdicts(toy):
        return tuple(check_of(one, finding_of(one, toy)) for one in rules)

    return with_changes(rules, plane, verdicts(plane), verdicts=verdicts)


def test_the_smallest_measure_that_holds_with_a_little_to_spare():
    """0.35 * 1.07 = 0.3745, so 375 mm; mass +7.5 g."""
    check = run((SIZE, MASS_WIDE), Toy())[0]
    assert check.verdict is Verdict.FAILS
    change = check.changes[0]
    assert change.values == {"span": 0.375}
    assert change.margin == pytest.approx(0.375 / 0.35 - 1)
    assert change.margin >= WANTED
    assert change.mass_change == pytest.approx(0.0075)
    assert change.worsened == ()
    assert change.words == (
        "Span 375 mm instead of 300 mm: margin becomes +7 %, mass +7.5 g, "
        "all other checks still hold"
    )


def test_applied_it_really_mends():
    plane = Toy()
    change = run((SIZE, MASS_WIDE), plane)[0].changes[0]
    after = run((SIZE, MASS_WIDE), plane.with_values(change.values))[0]
    assert after.verdict is Verdict.HOLDS


def test_harm_to_another_check_is_said():
    """0.4375 of 0.4531 is close; it held at 0.43."""
    change = run((SIZE, MASS_TIGHT), Toy())[0].changes[0]
    assert change.worsened == ("mass",)
    assert "worse: Title of mass (close)" in change.words


def test_a_harmless_lever_is_preferred():
    easy = rule(
        "size",
        lambda p: Finding(p.span * (1.4 if p.layers > 1 else 1.0), "Words.", low=0.35),
        lambda p, f: (*span_lever(p, f), *layer_lever(p, f)),
    )
    light = rule("mass", lambda p: Finding(p.span, "Words.", high=0.31), lambda p, f: ())
    found = run((easy, light), Toy(span=0.29))[0].changes
    assert [change.values for change in found] == [{"layers": 2}]


def test_two_levers_together_where_one_is_not_enough():
    far = rule(
        "size",
        lambda p: Finding(p.span * (1.4 if p.layers > 1 else 1.0), "Words.", low=0.72),
        lambda p, f: (*span_lever(p, f), *layer_lever(p, f)),
    )
    change = run((far, MASS_WIDE), Toy())[0].changes[0]
    assert set(change.values) == {"span", "layers"}
    assert " and " in change.words


def test_no_lever_no_change():
    bare = rule("size", lambda p: Finding(p.span, "Words.", low=0.35), lambda p, f: ())
    assert run((bare,), Toy())[0].changes == ()


def test_what_holds_gets_no_change():
    assert run((SIZE,), Toy(span=0.5))[0].changes == ()


def test_few_planes_are_asked():
    asked = []
    watched = rule(
        "size",
        lambda p: (asked.append(p.span), Finding(p.span, "Words.", low=0.35))[1],
        span_lever,
    )
    changes_for(watched, Toy(), (), verdicts=lambda p: (check_of(SIZE, finding_of(SIZE, p)),))
    assert len(asked) <= 12
