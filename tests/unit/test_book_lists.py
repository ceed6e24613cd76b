"""Shopping, throws, washers: figures that can be worked by hand."""

import math

import pytest

from foamwright.book.set_up import edge_travel, washer_thickness
from foamwright.book.shopping import lengths_needed, read_shop
from foamwright.core.errors import DesignError


def test_sticks_to_buy():
    # 300 mm sticks, 2 mm lost a cut: 200 + 90 fit (292), 150 + 140 fit (292), 120 alone.
    assert lengths_needed([0.09, 0.12, 0.14, 0.15, 0.2], 0.3) == 3
    assert lengths_needed([], 0.3) == 0
    assert lengths_needed([0.7], 0.3) == 3


def test_travel_at_the_edge():
    # 30 mm wide surface, 60 deg: the chord of a sixth of a turn is the radius.
    assert edge_travel(0.03, math.radians(60)) == pytest.approx(0.03)
    assert edge_travel(0.03, -math.radians(60)) == pytest.approx(0.03)


def test_washer():
    # tan 45 deg is 1
    assert washer_thickness(0.019, math.radians(45)) == pytest.approx(0.019)


def test_the_builders_own_shop(tmp_path):
    file = tmp_path / "shop.toml"
    file.write_text('["hot glue"]\npack = 12\nprice = 3.5\nhave = 4\n', "utf-8")
    entry = read_shop(file)["hot glue"]
    assert (entry.pack, entry.price, entry.have) == (12, 3.5, 4)


@pytest.mark.parametrize(
    ("text", "match"),
    [
        ('["hot glue"]\ncost = 3', "hot glue is"),
        ('["hot glue"]\npack = 0', "hot glue.pack is 0"),
        ('["hot glue"]\nprice = "3"', "hot glue.price is 3"),
        ("[hot glue", "it is not TOML"),
    ],
)
def test_a_shop_file_that_cannot_be_read(tmp_path, text, match):
    file = tmp_path / "shop.toml"
    file.write_text(text, "utf-8")
    with pytest.raises(DesignError, match=match):
        read_shop(file)
