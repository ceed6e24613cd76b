"""Typed-in designs and stock for the tests of shape and parts."""

from foamwright.core.bands import Band
from foamwright.design.model import (
    Aileron,
    Design,
    Fuselage,
    Motor,
    Pack,
    Servo,
    Tail,
    TailSurface,
    Wing,
    WingPanel,
)
from foamwright.stock.model import (
    BandStock,
    BoardStock,
    ControllerStock,
    GlueStock,
    MotorStock,
    PlyStock,
    RodStock,
    ServoStock,
    SimpleStock,
    Stock,
    TapeStock,
)

INCH = 0.0254


def exact(value):
    return Band(value, value, value, "typed in")


def _rod(name, kind, width, height=None, *, round=True, length=0.9, density=700.0):
    height = width if height is None else height
    ten = exact(1e10)
    return RodStock(
        name, kind, width, height, 0.0, round, length, exact(density), ten, ten, exact(1.0)
    )


def sample_stock():
    b = exact
    board = BoardStock(
        "light display board",
        0.762,
        0.508,
        b(0.005),
        Band(0.284, 0.297, 0.323, "typed in"),
        b(0.09),
        *[b(1e6)] * 6,
        b(0.00013),
        *[b(1e9)] * 4,
        b(1.5),
    )
    rods = [
        _rod("music wire 1.2 mm", "wire", 0.0012, density=7850.0),
        _rod("music wire 2.0 mm", "wire", 0.002, density=7850.0),
        _rod("hardwood dowel 1/4 in", "dowel", 0.25 * INCH),
        _rod("bamboo skewer 3 mm", "bamboo", 0.003, length=0.3),
        _rod("jumbo craft stick", "craft stick", 0.018, 0.0017, round=False, length=0.15),
        _rod("carbon rod 3 mm", "carbon", 0.003, density=1550.0),
    ]
    ply = PlyStock("birch ply 1/8 in", b(0.003175), b(680.0), b(1e10), b(5e7), b(1.0))
    tapes = [
        TapeStock("fibre mesh tape", 0.05, b(0.065), b(1e5), b(14e3), b(0.1)),
        TapeStock("packing tape", 0.048, b(0.045), b(1e5), b(5e3), b(0.1)),
    ]
    glue = GlueStock(
        "hot glue", Band(0.08, 0.11, 0.15, "typed in"), *[b(1e6)] * 3, b(330.0), b(25.0), b(1.0)
    )
    band = BandStock("rubber band 64", 0.09, 0.006, 0.0008, b(0.0007), b(1e6), b(0.02))
    motor = MotorStock(
        Motor().stock, b(104.7), b(0.1), b(1.0), b(15.0), b(0.05), 0.028, 0.03,
        0.019, b(12.0),
    )  # fmt: skip
    return Stock(
        boards={board.name: board},
        rods={rod.name: rod for rod in rods},
        plies={ply.name: ply},
        tapes={tape.name: tape for tape in tapes},
        glues={glue.name: glue},
        bands={band.name: band},
        motors={motor.name: motor, "outrunner 22 mm 1000 Kv": motor},
        controllers={
            "controller 20 A": ControllerStock("controller 20 A", 20.0, 0.005, b(0.022), b(9.0))
        },
        servos={
            "servo 9 g": ServoStock(
                "servo 9 g", b(0.011), b(0.15), 8.0, (0.023, 0.012, 0.025), 0.7, b(4.0)
            )
        },
        others={
            "receiver 6 channel": SimpleStock(
                "receiver 6 channel", b(0.0085), (0.042, 0.025, 0.013), b(22.0)
            ),
            "nylon bolt M4": SimpleStock("nylon bolt M4", b(0.0007), (0.008, 0.008, 0.03), b(0.1)),
        },
    )


def tail(**values):
    return TailSurface.model_construct(**values)


def panel(span, chord, **values):
    return WingPanel.model_construct(span=span, chord=chord, **values)


def wing(panels=None, **values):
    values.setdefault("position", 0.2)
    panels = panels or (panel(0.5842, 0.197, dihedral=0.0436),)
    return Wing.model_construct(panel=tuple(panels), **values)


def design(**values):
    """A 46 in aileron trainer, with some tables replaced."""
    tables = {
        "name": "Sample",
        "wing": wing(aileron=Aileron()),
        "tail": Tail(),
        "stab": tail(position=0.75, span=0.40, chord=0.13, tip_chord=0.10),
        "fin": tail(position=0.76, span=0.16, chord=0.15, tip_chord=0.10, sweep=0.3),
        "fuselage": Fuselage.model_construct(length=0.914),
        "pack": Pack.model_construct(position=0.10),
        "servo": tuple(
            Servo.model_construct(role=role) for role in ("aileron", "elevator", "rudder")
        ),
    }
    tables.update(values)
    return Design.model_construct(**tables)
