"""docs/use/checks.md lists every check as the code has it."""

import re
from pathlib import Path

from foamwright.checks.judge import CLOSE
from foamwright.checks.run import RULES

PAGE = Path(__file__).resolve().parents[2] / "docs" / "use" / "checks.md"


def row(rule):
    return f"| `{rule.id}` | {rule.title} | {rule.limits} | {rule.place} | {rule.source} |"


def test_every_check_is_on_the_page():
    page = PAGE.read_text(encoding="utf-8")
    missing = [row(rule) for rule in RULES if row(rule) not in page]
    assert missing == []


def test_the_page_lists_no_other_checks():
    page = PAGE.read_text(encoding="utf-8")
    listed = re.findall(r"^\| `(\w+)` \|", page, re.M)
    assert listed == [rule.id for rule in RULES]


def test_the_page_states_the_rule_of_margins():
    assert f"{100 * CLOSE:.0f} %" in PAGE.read_text(encoding="utf-8")


def test_every_result_key_is_on_the_page():
    """The keys that `check --json` promises."""
    page = PAGE.read_text(encoding="utf-8")
    for key in (
        "balance.all_up_mass",
        "balance.cg_x",
        "balance.cg_low",
        "balance.cg_high",
        "aero.wing_area",
        "aero.mean_chord",
        "aero.neutral_point_x",
        "aero.static_margin",
        "aero.lift_slope",
        "aero.stall_speed",
        "aero.max_lift_drag",
        "power.static_thrust",
        "power.full_throttle_current",
        "power.full_throttle_power",
        "flight.level_speed",
        "flight.level_throttle",
        "flight.climb_rate",
        "flight.endurance",
        "strength.limit_load_factor",
        "strength.first_failure",
        "sheets.boards_used",
        "sheets.fill",
    ):
        assert f"`{key}`" in page
