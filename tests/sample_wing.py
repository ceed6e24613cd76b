"""A plain trainer of one metre for the strength tests, in words as a builder writes them."""

from copy import deepcopy

from foamwright.design.model import Design
from foamwright.parts.model import PartsList
from foamwright.shape.airframe import build_airframe
from foamwright.stock.load import board_of, load_stock
from foamwright.strength.analyse import analyse
from foamwright.strength.model import LoadCase

STOCK = load_stock()
DATA = {
    "name": "Plain Jane",
    "wing": {
        "position": "200 mm",
        "panel": [{"span": "500 mm", "chord": "190 mm"}],
        "spar": {"strips": 2, "strip_width": "25 mm"},
        "attachment": {"bands": 4},
    },
    "stab": {"position": "720 mm", "span": "360 mm", "chord": "120 mm"},
    "fin": {"position": "720 mm", "span": "150 mm", "chord": "130 mm", "tip_chord": "90 mm"},
    "fuselage": {"length": "850 mm"},
    "pack": {"position": "90 mm"},
    "servo": [{"role": "elevator"}, {"role": "rudder"}],
}
LOADS = {
    "mass": 0.5,
    "wing_mass": 0.15,
    "lift_slope": 4.4,
    "lift_max": 1.1,
    "stall_speed": 6.2,
    "top_speed": 15.5,
    "density": 1.225,
    "gust": 4.0,
    "static_thrust": 6.0,
    "motor_mass": 0.055,
    "hinge_moments": {"elevator": 0.02, "rudder": 0.015},
    "temperature": 296.15,
}


def design(**changes) -> Design:
    """The trainer with some keys changed: wing__spar__strips=3."""
    data = deepcopy(DATA)
    for key, value in changes.items():
        *tables, last = key.split("__")
        at = data
        for table in tables:
            at = at[int(table)] if isinstance(at, list) else at.setdefault(table, {})
        at[last] = value
    return Design.model_validate(data)


def airframe_of(plan, stock=STOCK):
    return build_airframe(plan, board_of(plan.board, stock).thickness.typical)


def loads(**changes) -> LoadCase:
    return LoadCase(**{**LOADS, **changes})


def strength(plan=None, stock=STOCK, **changes):
    plan = plan or design()
    parts = PartsList((), ())
    return analyse(plan, airframe_of(plan, stock), stock, parts, loads=loads(**changes))


def limits(result) -> dict[str, float]:
    return {failure.id: failure.load_factor for failure in result.failures}
