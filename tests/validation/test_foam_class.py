"""Foam core of the stock against the classes of polystyrene board in ASTM C578."""

from foamwright.stock.load import load_stock

TYPE_X, TYPE_IV = 104.0, 173.0  # kPa, least compressive resistance at 21 and 25 kg/m³, ASTM C578-10
SOURCE = "ASTM C578-10, table of types: least compressive resistance"


def test_core_lies_between_two_classes(reproduce):
    core = load_stock().boards["light display board"].core_compressive_strength
    reproduce(
        "compressive strength of the core, typical, against type X (kPa)",
        computed=core.typical / 1e3, printed=TYPE_X, near=TYPE_IV - TYPE_X, source=SOURCE,
    )  # fmt: skip
    reproduce(
        "the same, high end of the band, against type IV (kPa)",
        computed=core.high / 1e3, printed=TYPE_IV, rel=0.1, source=SOURCE,
    )  # fmt: skip


def test_density_of_the_core(reproduce):
    core = load_stock().boards["light display board"].core_density
    reproduce(
        "density of the core, typical, against type IV (kg/m³)",
        computed=core.typical, printed=25.0, rel=0.1,
        source="ASTM C578-10: least density of type IV; what is sold is about a tenth denser",
    )  # fmt: skip
