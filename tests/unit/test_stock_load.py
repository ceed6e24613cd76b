"""Reading stock: shipped tables, the builder's own, and every mistake in it."""

import math
import tomllib
from types import SimpleNamespace

import pytest

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.stock.fields import CLASSES, known, to_si
from foamwright.stock.load import TABLES, board_of, find, load_stock, stock_names

STOCK = load_stock()


def board(**changes):
    given = {
        "stock": "light display board",
        "length": 0.762,
        "width": 0.508,
        "mass": None,
        "thickness": None,
        "papers": "both",
    }
    return SimpleNamespace(**(given | changes))


@pytest.mark.parametrize("table", CLASSES)
def test_every_shipped_entry_reads(table):
    raw = tomllib.loads((TABLES / f"{table}.toml").read_text(encoding="utf-8"))
    entries = getattr(STOCK, table)
    assert list(entries) == list(raw)
    for name, entry in entries.items():
        assert entry.name == name
        assert "source" in raw[name]
        for field in CLASSES[table].__dataclass_fields__:
            value = getattr(entry, field)
            if hasattr(value, "typical"):
                assert value.low <= value.typical <= value.high
                assert math.isfinite(value.low), (name, field)
                assert value.source


def test_a_table_behaves_as_a_dict():
    rods = STOCK.rods
    assert dict(rods)["craft stick"].kind == "craft stick"
    assert {**rods}["craft stick"].name == "craft stick"
    assert rods.get("no such rod") is None
    assert "craft stick" in rods
    assert len(rods) == len(list(rods.values()))
    with pytest.raises(KeyError):
        rods["no such rod"]


def test_values():
    assert STOCK.boards["light display board"].core_modulus.typical == 8e6
    assert STOCK.glues["hot glue"].hot_temperature.typical == pytest.approx(323.15)
    assert STOCK.tapes["packing tape"].strength.typical == 3500.0
    assert STOCK.rods["carbon tube 6x4 mm"].bore == 0.004
    assert to_si("1/4 in", "length") == pytest.approx(0.00635)
    for wrong in ("5", 5, "5 furlongs", "mm 5"):
        with pytest.raises(ValueError, match="unit"):
            to_si(wrong, "density")


def test_board_on_the_bench():
    assert board_of(board(), STOCK).areal_mass.typical == 0.297
    weighed = board_of(board(mass=0.126, thickness=0.0047), STOCK)
    # 126 g over 0.762 x 0.508 m.
    assert weighed.areal_mass.low == weighed.areal_mass.high == pytest.approx(0.3255, abs=1e-4)
    assert weighed.thickness.typical == 0.0047
    peeled = board_of(board(papers="both peeled"), STOCK)
    assert peeled.areal_mass.typical == pytest.approx(0.297 - 2 * 0.090)
    with pytest.raises(DesignError, match="the papers alone weigh"):
        board_of(board(mass=0.02, papers="both peeled"), STOCK)
    with pytest.raises(DesignError, match='Did you mean "light display board"'):
        board_of(board(stock="lite display board"), STOCK)


OWN = """
[boards."my board"]
like = "light display board"
areal_mass = "310 g/m2"

[rods."oak stick"]
kind = "dowel"
width = "1/4 in"
round = true
length = "3 ft"
density = "700 kg/m3"

[glues."hot glue"]
share = 0.2
"""


def test_own_stock(tmp_path):
    file = tmp_path / "stock.toml"
    file.write_text(OWN, encoding="utf-8")
    stock = load_stock(file)
    assert stock.boards["my board"].areal_mass.high == pytest.approx(0.31)
    assert stock.boards["my board"].core_modulus == STOCK.boards["light display board"].core_modulus
    oak = stock.rods["oak stick"]
    assert oak.height == oak.width == pytest.approx(0.00635)
    assert not known(oak.modulus)
    assert stock.glues["hot glue"].share.typical == 0.2
    assert stock.glues["hot glue"].shear_strength.typical == 2e6
    assert "my board" in stock_names(stock)["boards"]
    assert "not given" in find(stock, ("oak",))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (
            '[boards."b"]\nlike = "light display board"\nlenght = "1 m"',
            r':3: .*Did you mean "length"',
        ),
        ('[board."b"]\nmass = "1 g"', r'section \[board\].*Did you mean "boards"'),
        ('[boards."b"]\nlike = "heavy display"', "no such entry ships"),
        ('[boards."b"]\nthickness = "5 mm"', "boards.b.length is missing; a new entry needs it"),
        (
            '[plies."p"]\nlike = "birch ply 1/8 in"\nthickness = 3',
            ":3: .*a number and one of the units",
        ),
        (
            '[plies."p"]\nlike = "birch ply 1/8 in"\ndensity = ["2 kg/m3", "1 kg/m3", "3 kg/m3"]',
            "order",
        ),
        ('[plies."p"]\nlike = "birch ply 1/8 in"\nthickness = "-3 mm"', "above zero"),
        ('[plies."p"]\nlike = "birch ply 1/8 in"\nthickness = ["3 mm"]', "list of three"),
        ('[rods."r"]\nlike = "craft stick"\nround = "yes"', "true or false"),
        ('[rods."r"]\nlike = "craft stick"\nkind = 3', "text in quotes"),
        ('[rods."r"]\nlike = "craft stick"\nsource = 3', "text in quotes"),
        ("[plies]\nbirch = 3", "write a section"),
        ("[plies\n", ":1: this line cannot be read"),
    ],
)
def test_mistakes_in_own_stock(tmp_path, text, words):
    file = tmp_path / "stock.toml"
    file.write_text(text, encoding="utf-8")
    with pytest.raises(DesignErrors, match=words):
        load_stock(file)


def test_all_mistakes_at_once(tmp_path):
    file = tmp_path / "stock.toml"
    file.write_text('[plies."p"]\nthickness = 3\nprize = 4\n[bord."x"]\n', encoding="utf-8")
    with pytest.raises(DesignErrors) as caught:
        load_stock(file)
    assert len(caught.value.errors) >= 4
    assert {error.file for error in caught.value.errors} == {"stock.toml"}


def test_files_that_are_no_stock(tmp_path):
    with pytest.raises(DesignErrors, match="it is a folder"):
        load_stock(tmp_path)
    binary = tmp_path / "binary.toml"
    binary.write_bytes(b"\xff\xfe\x00\x01")
    with pytest.raises(DesignErrors, match="not UTF-8"):
        load_stock(binary)
    huge = tmp_path / "huge.toml"
    huge.write_bytes(b"#" * 1_000_001)
    with pytest.raises(DesignErrors, match="larger than 1 MB"):
        load_stock(huge)
    with pytest.raises(DesignErrors, match="cannot be read"):
        load_stock(tmp_path / "none.toml")


def test_looking_up():
    assert "light display board" in find(STOCK)
    text = find(STOCK, ("carbon", "6x4"))
    assert "115000 / 127000 / 140000 MPa" in text
    assert "source: pultruded carbon" in text
    assert "Nearest:" in find(STOCK, ("carbn tube 6x4",))


def test_looking_up_sizes():
    text = find(STOCK, ("packs",))
    assert "pack strap" not in text
    assert "3 cells 1300 mAh: 98.18 / 111.6 / 125 g" in text  # 12 g + 6.9 g/Wh of 14.43 Wh, 12 %
    assert "under [pack]" in text
    assert "electric 9x6: " in find(STOCK, ("propellers", "electric"))
    assert "  2 cells 850 mAh" in find(STOCK)
