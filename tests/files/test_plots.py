"""Plots of strength and balance: what stands on them, and what they were drawn from."""

from pathlib import Path

import numpy as np
import pytest

from foamwright.core.errors import OutputError
from foamwright.opening import load
from foamwright.sheets.plots import balance_figure, draw_plot, strength_figure

EXAMPLE = Path(__file__).parents[2] / "examples" / "tansy-drift.toml"


@pytest.fixture(scope="module")
def plane():
    return load(EXAMPLE)


def lines(axis):
    return {line.get_label(): line.get_xydata() for line in axis.lines}


def test_strength(plane):
    load_axis, bending, heat = strength_figure(plane).axes
    drawn = lines(load_axis)["lift, lattice"]
    # Both halves carry the whole weight times the load factor.
    needed = plane.strength.needed_load_factor
    lift = 2.0 * np.trapezoid(drawn[:, 1], drawn[:, 0] / 1000.0)
    assert lift == pytest.approx(needed * plane.balance.all_up_mass * 9.80665, rel=1e-3)
    words = [text.get_text() for text in bending.texts]
    worst = min(f.load_factor for f in plane.strength.failures if f.id.startswith("wing_"))
    assert words == [f"margin {100 * (worst / needed - 1):+.0f} %"]
    for name, curve in lines(heat).items():
        if not name.startswith("_"):
            assert (np.diff(curve[:, 1]) <= 1e-9).all(), name
    assert "proof-load" in load_axis.get_title()


def test_balance(plane):
    bars, envelope = balance_figure(plane).axes
    total = sum(bar.get_width() for bar in bars.patches) / 1000.0
    assert total == pytest.approx(plane.balance.all_up_mass, rel=1e-6)
    curve = lines(envelope)["balance point, with its band"]
    assert curve[0] == pytest.approx(
        [1000 * plane.balance.pack_front, 1000 * plane.balance.cg_front]
    )
    assert curve[-1] == pytest.approx(
        [1000 * plane.balance.pack_back, 1000 * plane.balance.cg_back]
    )


def test_written_twice_alike(plane, tmp_path):
    one, other = (
        draw_plot(strength_figure(plane), tmp_path / f"{n}.svg").read_bytes() for n in "ab"
    )
    assert one == other
    assert b"<svg" in one


def test_other_endings_are_refused(plane, tmp_path):
    with pytest.raises(OutputError, match=r"plot\.gif must end in \.svg, \.png, \.pdf"):
        draw_plot(balance_figure(plane), tmp_path / "plot.gif")
