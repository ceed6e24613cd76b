"""What cannot be is refused in words, and what cannot be said is said to be so, by name."""

from dataclasses import replace

import pytest
from design_text import TEXT

from foamwright.checks.builds import builds_of
from foamwright.checks.run import verdicts
from foamwright.core.errors import DesignErrors
from foamwright.core.verdicts import Verdict
from foamwright.opening import load_text
from foamwright.stock.fields import MISSING
from foamwright.stock.load import load_stock
from sample_wing import design, strength


def opened(extra="", **tables):
    return load_text(TEXT + extra, "odd.toml", **tables)


@pytest.mark.parametrize(
    ("extra", "words"),
    [
        ("\n[wing.spar]\nextent = 1.2\n", r"wing\.spar\.extent is 1\.2"),
        (
            '\n[[wing.reinforcement]]\nkind = "dowel"\nend = "700 mm"\n',
            r"wing\.reinforcement\.0\.end is 700 mm; the half span is 500 mm",
        ),
        (
            '\n[wing.joint]\nbrace_length = "1200 mm"\n',
            r"wing\.joint\.brace_length is 1200 mm; it must be no longer than the wing",
        ),
    ],
)
def test_spar_and_brace_longer_than_the_wing(extra, words):
    with pytest.raises(DesignErrors, match=words):
        opened(extra)


def test_no_bands_are_refused_and_hold_nothing():
    with pytest.raises(DesignErrors, match=r"wing\.attachment\.bands is 0; a wing held by bands"):
        opened("\n[wing.attachment]\nbands = 0\n")
    result = strength(design(wing__attachment={"bands": 0}))
    assert result.limit_load_factor == 0.0
    assert any("nothing holds the wing" in failure.why for failure in result.failures)


def stock_without(figure):
    stock = load_stock()
    board = replace(stock.boards["light display board"], **{figure: MISSING})
    return replace(stock, boards={**dict(stock.boards.items()), board.name: board})


def test_a_board_without_strength_cannot_be_said_by_name():
    plane = opened(stock=stock_without("paper_compressive_strength"))
    assert "paper compressive strength" in plane.strength.unsaid["wing_top_crushing"]
    found = {check.id: check for check in verdicts(plane)}
    assert found["wing_load"].verdict is Verdict.CANNOT_SAY
    assert "paper compressive strength" in found["wing_load"].why
    drawn = builds_of(plane)
    assert drawn.share("wing_load") is None
    assert drawn.share("static_margin") is not None


def test_a_board_without_tearing_strength_leaves_that_out_by_name():
    plane = opened(stock=stock_without("paper_tensile_strength"))
    notes = " ".join(plane.strength.notes)
    assert "the board's paper tensile strength" in notes
    assert not any(failure.id == "wing_bottom_tension" for failure in plane.strength.failures)
    found = {check.id: check for check in verdicts(plane)}
    assert found["wing_load"].verdict is Verdict.CANNOT_SAY
    assert found["firewall"].verdict is not Verdict.CANNOT_SAY
