"""What blade, ruler, slots and paper make of the parts: verdicts on planes made for it."""

from dataclasses import replace

import pytest
import shapely

from foamwright.checks.cutting import CUTTING_RULES
from foamwright.checks.judge import check_of, finding_of


@pytest.fixture
def found(cob):
    def ask(changed=None):
        changed = cob if changed is None else changed
        return {rule.id: check_of(rule, finding_of(rule, changed)) for rule in CUTTING_RULES}

    return ask


def with_part(plane, change):
    """The plane with its first spar strip changed."""
    parts = [change(p) if p.id == "spar-strip-1-1-right" else p for p in plane.parts.parts]
    return plane.with_results(("airframe",), parts=replace(plane.parts, parts=tuple(parts)))


def test_the_trainer_can_be_cut(found):
    assert {check.verdict for check in found().values()} == {"holds"}
    # 4.76 mm board at 45 degrees: 4.76 x 1.414 + 2 mm.
    assert found()["blade_reach"].value == pytest.approx(4.76e-3 * 2**0.5 + 0.002, abs=1e-6)
    # The tail's slot is as wide as the board's typical 4.76 mm; 5.1 and 4.3 mm are sold.
    assert found()["slots"].value == pytest.approx(0.46e-3, abs=1e-6)


def test_a_long_cut_wants_a_long_ruler(cob, found):
    long = with_part(cob, lambda part: replace(part, outline=shapely.box(0, 0, 1.2, 0.025)))
    check = found(long)["ruler"]
    assert check.verdict == "fails"
    assert check.value == pytest.approx(1.2)
    assert "1 part wants" in check.why


def test_a_thin_strip_tears(cob, found):
    thin = with_part(cob, lambda part: replace(part, outline=shapely.box(0, 0, 0.5, 0.003)))
    check = found(thin)["narrow_parts"]
    assert check.verdict == "fails"
    assert check.value == pytest.approx(0.003, abs=2e-4)
    assert "spar strip" in check.why


def test_thick_board_wants_a_long_blade(cob, found):
    check = found(with_part(cob, lambda part: replace(part, thickness=0.020)))["blade_reach"]
    # Straight through 20 mm and 2 mm below.
    assert check.verdict == "fails"
    assert check.value == pytest.approx(0.022)


def test_a_measured_board_fits_its_slots(cob, found):
    measured = found(cob.with_values({"board.thickness": 0.0047}))["slots"]
    assert measured.value == pytest.approx(0.0, abs=1e-9)
    assert "measured" in measured.why


def test_a_tight_bend_fails_and_is_mended(cob, found):
    checks = {check.id: check for check in cob.with_values({"wing.creases": 0}).checks}
    check = checks["skin_bend"]
    assert check.verdict == "fails"
    assert any("creases" in change.words for change in check.changes)


def test_lost_cut_outs_are_told(cob, found):
    note = "Its cut-outs are left off: they would cut it in two."
    check = found(with_part(cob, lambda part: replace(part, notes=note)))["drawn_as_asked"]
    assert check.verdict == "fails"
    assert "spar strip" in check.why
