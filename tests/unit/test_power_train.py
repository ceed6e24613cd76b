"""From design and stock to constants: what the design states comes first, the rest from stock."""

import math

import pytest

from foamwright.core.bands import Band
from foamwright.core.errors import DesignError
from foamwright.design.model import Controller, Design, Motor, Pack, Propeller
from foamwright.power.pack import lengthened, pack_of
from foamwright.power.train import build_train, motor_of
from foamwright.stock.model import ControllerStock, MotorStock, Stock

RPM = math.pi / 30.0
NAME = "outrunner 22 mm 1400 Kv"
PRICE = Band(9.0, 14.0, 22.0)
MOTOR = MotorStock(
    name=NAME,
    kv=Band(1344 * RPM, 1400 * RPM, 1414 * RPM),
    resistance=Band(0.075, 0.105, 0.16),
    no_load_current=Band(0.6, 0.9, 1.3),
    max_current=Band(14.0, 17.0, 22.0),
    mass=Band(0.045, 0.052, 0.058),
    diameter=0.0279,
    length=0.027,
    bolt_circle=0.0175,
    price=PRICE,
)
CONTROLLER = ControllerStock("controller 20 A", 20.0, 0.008, Band(0.018, 0.021, 0.025), PRICE)
STOCK = Stock(
    boards={}, rods={}, plies={}, tapes={}, glues={}, bands={}, servos={}, others={},
    motors={NAME: MOTOR, Motor().stock: MOTOR}, controllers={"controller 20 A": CONTROLLER},
)  # fmt: skip


def _design(**tables):
    usual = {
        "motor": Motor(),
        "propeller": Propeller(),
        "controller": Controller(),
        "pack": Pack(position="90 mm"),
        "supply_cutoff": 3.3,
    }
    return Design.model_construct(**(usual | tables))


def test_stock_where_nothing_is_stated():
    train = build_train(_design(), STOCK)
    assert train.motor.resistance == MOTOR.resistance
    assert train.controller_resistance == 0.008
    assert train.pack.cells == 3
    assert train.propeller.in_fit_range


def test_measured_values_replace_bands():
    motor = Motor(kv="1380 Kv", resistance="0.12 ohm", no_load_current="0.7 A", mass="50 g")
    train = build_train(_design(motor=motor), STOCK)
    assert train.motor.kv.low == train.motor.kv.high == pytest.approx(1380 * RPM)
    assert train.motor.resistance.high == train.motor.resistance.low == pytest.approx(0.12)
    assert train.motor.mass.typical == pytest.approx(0.050)
    assert train.motor.max_current == MOTOR.max_current


def test_label_kv_keeps_a_band():
    kv = motor_of(Motor(kv="1400 Kv"), STOCK).kv
    assert kv.typical == pytest.approx(1400 * RPM)
    assert kv.low < kv.typical < kv.high


def test_another_kv_is_another_motor():
    # 900 Kv is not this stock entry: resistance must rise well above its 0.105 ohm
    motor = motor_of(Motor(kv="900 Kv"), STOCK)
    assert motor.resistance.typical > 0.2
    assert motor.mass == MOTOR.mass


def test_measured_pack_propeller_controller():
    train = build_train(
        _design(
            pack=Pack(position="90 mm", cells=2, capacity="850 mAh", resistance="0.05 ohm"),
            propeller=Propeller(
                kind="electric", diameter="8 in", pitch="4 in", mass="9 g", line="A"
            ),
            controller=Controller(current="80 A"),
        ),
        STOCK,
    )
    assert train.pack.resistance == Band.exact(pytest.approx(0.05))
    assert train.propeller.mass.typical == pytest.approx(0.009)
    assert train.propeller.line == "A"
    assert train.controller_current == 80.0
    assert train.controller_resistance == pytest.approx(
        0.004
    )  # 8 mohm at 20 A, halved at four times


def _raw(table, **values):
    """A table as no design file would let it through."""
    return table().model_copy(update=values)


@pytest.mark.parametrize(
    ("tables", "match"),
    [
        ({"motor": _raw(Motor, kv=0.0)}, r"motor.kv is 0 Kv; motors have 100 to 10000 Kv"),
        ({"motor": Motor(stock="outrunner 22 mm 145 Kv")}, 'Nearest in stock: "outrunner 22 mm'),
        ({"motor": _raw(Motor, resistance=0.0)}, r"motor.resistance is 0; it must be above zero"),
        ({"motor": _raw(Motor, no_load_current=-1.0)}, r"motor.no_load_current"),
        ({"controller": Controller(stock="x")}, r"`foamwright stock` lists"),
        ({"controller": _raw(Controller, current=0.0)}, r"controller.current is 0 A"),
        ({"propeller": _raw(Propeller, diameter=1.016)}, r"propeller.diameter is 1016 mm"),
        ({"propeller": Propeller(line="F")}, r"propeller.line"),
    ],
)  # fmt: skip
def test_refused(tables, match):
    with pytest.raises(DesignError, match=match):
        build_train(_design(**tables), STOCK)


def test_longer_leads_add_to_the_pack():
    # 0.3 m there and back of 1.3 mm wire: 0.6 * 1.724e-8 / 1.3273e-6 = 7.79 mohm; a plug 0.5 mohm
    pack = pack_of(3, 4680.0)
    longer = lengthened(pack, 0.3, 0.0013)
    assert longer.resistance.typical - pack.resistance.typical == pytest.approx(8.29e-3, abs=1e-5)
    assert longer.resistance.low - pack.resistance.low == pytest.approx(8.29e-3, abs=1e-5)
    assert lengthened(pack, 0.0, 0.0013) is pack
