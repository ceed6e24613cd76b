"""Mass of boards, plywood and tape from stock.

A sheet of light display board on a kitchen scale, published 2013; the rest are densities of data
sheets.
"""

from types import SimpleNamespace

from foamwright.stock.load import board_of, load_stock


def test_sheet(reproduce):
    stock = load_stock()
    sheet = SimpleNamespace(
        stock="light display board",
        length=0.762,
        width=0.508,
        mass=None,
        thickness=None,
        papers="both",
    )
    board = board_of(sheet, stock)
    reproduce(
        "mass of a 508 x 762 mm sheet of light display board, kg",
        computed=board.areal_mass.typical * 0.762 * 0.508,
        printed=0.115,
        rel=5e-3,
        source="hobbyist's article 2013, kitchen scale to 1 g",
    )
    reproduce(
        "mass of a 254 x 508 mm piece of the same, kg",
        computed=board.areal_mass.typical * 0.254 * 0.508,
        printed=0.038,
        rel=0.5 / 38,
        source="hobbyist's article 2013, kitchen scale to 1 g; half a gram",
    )


def test_plywood(reproduce):
    ply = load_stock().plies["birch ply 1/8 in"]
    reproduce(
        "mass of a square foot of 3.175 mm birch ply at stock density, kg",
        computed=ply.density.typical * 0.003175 * 0.3048**2,
        printed=0.200578,
        rel=5e-3,
        source="birch plywood data sheet, 680 kg/m³",
    )


def test_tape(reproduce):
    tape = load_stock().tapes["packing tape"]
    reproduce(
        "mass of a metre of packing tape 48 mm wide, kg",
        computed=tape.areal_mass.typical * tape.width,
        printed=0.0022,
        rel=0.1,
        source="50 µm in all at 0.93 g/cm³; thickness known to a tenth",
    )
