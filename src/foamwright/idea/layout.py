"""From chosen values to the tables of a design file, in SI and in the builder's measures."""

import math
from collections.abc import Mapping
from typing import Any, cast

from foamwright.core.errors import DesignErrors
from foamwright.design.model import Design
from foamwright.design.validate import validate
from foamwright.idea.gear import Gear
from foamwright.idea.problem import Problem

FIN_ASPECT = 1.2  # height over mean chord, common practice
FIN_TAPER = 0.65  # tip over root chord, common practice
HALF_DEGREE = math.radians(0.5)  # what a builder can set; common practice
INNER = 0.55  # of the half span, inner panel of a polyhedral wing; common practice
LIGHT = 0.3  # kg of motor, pack and radio below which bands and firewall may be small; assumed
SMALL_MOTOR = 0.03  # kg, screwed to a small firewall; common practice
THROWS = (0.2618, 0.2094)  # rad, elevator up and down, first flight; common practice
RUDDER_THROW = {"rudder": math.radians(25), "ailerons": math.radians(22)}  # common practice
AILERON_THROW = (math.radians(16), math.radians(6))  # up and down; common practice
TAPE_KINDS = {"fibre mesh tape": "mesh tape", "packing tape": "packing tape"}
STRIP_STEP = 0.0025  # m; strips are cut finer than panels

type Values = Mapping[str, Any]
type Table = dict[str, Any]


def tables_of(problem: Problem, values: Values) -> Table:
    """The tables of the design that chosen values mean.

    Args:
        problem: The bench and wishes. [-]
        values: Gene name -> value. [any]

    Returns:
        Nested tables as a design file has them, SI; the pack stands where it would usually. [any]

    Source:
        Areas and lengths are shares of span and wing area, rounded to what a builder measures.

    Example:
        >>> tables_of(problem, values)["fuselage"]["build"]
        'profile'
    """
    wishes, gear = problem.wishes, cast(Gear, values["gear"])
    span, chord = _span(problem, values), _chord(problem, values)
    nose = _measured(problem, values["nose_share"] * span)
    length = _measured(problem, values["length_share"] * span)
    place = _measured(problem, values["pack_share"] * span, least=0.02)
    area = _wing_area(problem, values)
    return {
        "name": wishes.name,
        "units": wishes.units,
        "field": wishes.field,
        "pilot": wishes.pilot,
        "board": wishes.board,
        "wing": _wing(problem, values, span=span, chord=chord, nose=nose),
        **_tail(problem, values, area=area, length=length),
        "fuselage": _fuselage(problem, values, length=length),
        **_power(problem, values, gear, place=min(place, length)),
        "receiver": {"stock": wishes.bench.receiver},
        "servo": _servos(problem, values, span=span),
    }


def design_of(problem: Problem, values: Values) -> Design:
    """The design that chosen values mean.

    Args:
        problem: The bench and wishes. [-]
        values: Gene name -> value. [any]

    Returns:
        The design, checked as one read from a file. [-]

    Raises:
        DesignErrors: It cannot be built as it is.

    Source:
        Definition.

    Example:
        >>> design_of(problem, values).wing.build
        'folded'
    """
    design = Design.model_validate(tables_of(problem, values))
    faults = validate(design)
    if faults:
        raise DesignErrors(faults)
    return design


def _measured(problem: Problem, length: float, *, least: float = 0.0) -> float:
    step = problem.step
    return max(round(length / step) * step, least, step)


def _span(problem: Problem, values: Values) -> float:
    return 2.0 * _measured(problem, 0.5 * values["span"])


def _angle(value: float) -> float:
    return round(value / HALF_DEGREE) * HALF_DEGREE


def _chord(problem: Problem, values: Values) -> float:
    """Root chord that gives the aspect ratio."""
    mean = values["span"] / values["aspect"]
    return _measured(problem, mean / _mean_share(values))


def _mean_share(values: Values) -> float:
    """Mean chord over root chord."""
    tapered = 0.5 * (1.0 + values["taper"])
    return INNER + (1.0 - INNER) * tapered if _two_panels(values) else tapered


def _two_panels(values: Values) -> bool:
    return values["controls"] == "rudder" and values.get("panels", 1) == 2


def _tip(problem: Problem, values: Values, chord: float) -> float:
    return _measured(problem, values["taper"] * chord)


def _wing_area(problem: Problem, values: Values) -> float:
    span, chord = _span(problem, values), _chord(problem, values)
    tip = _tip(problem, values, chord)
    tapered = 0.5 * (chord + tip)
    mean = INNER * chord + (1.0 - INNER) * tapered if _two_panels(values) else tapered
    return span * mean


def _panels(problem: Problem, values: Values, *, span: float, chord: float) -> list[Table]:
    half, tip = span / 2, _tip(problem, values, chord)
    roll, washout = values["roll"], _angle(values["washout"])
    if values["controls"] == "ailerons":
        dihedral = _angle(math.radians(4.0) * roll)
        return [_panel(half, chord, tip, dihedral=dihedral, washout=washout)]
    if not _two_panels(values):
        dihedral = _angle(math.radians(5.0 + 5.0 * roll))
        return [_panel(half, chord, tip, dihedral=dihedral, washout=washout)]
    inner = _measured(problem, INNER * half)
    outer = _angle(math.radians(7.0 + 8.0 * roll))
    return [
        {"span": inner, "chord": chord, "dihedral": math.radians(2.0)},
        {"span": half - inner, "tip_chord": tip, "dihedral": outer, "washout": washout},
    ]


def _panel(span: float, chord: float, tip: float, *, dihedral: float, washout: float) -> Table:
    panel: Table = {"span": span, "chord": chord, "dihedral": dihedral, "washout": washout}
    return panel | ({} if tip == chord else {"tip_chord": tip})


def _wing(problem: Problem, values: Values, *, span: float, chord: float, nose: float) -> Table:
    bench, stepped = problem.wishes.bench, values["build"] == "stepped"
    light = _light(cast(Gear, values["gear"]))
    strip = max(0.01, round(values["strip_share"] * chord / STRIP_STEP) * STRIP_STEP)
    wing: Table = {
        "build": values["build"],
        "place": "high",
        "position": nose,
        "incidence": _angle(values["incidence"]),
        "panel": _panels(problem, values, span=span, chord=chord),
        "spar": {"strips": 0} if stepped else {"strips": 2, "strip_width": strip},
        "reinforcement": _runs(problem, values, span=span, stepped=stepped),
        "joint": {
            "brace": bench.plies[0],
            "brace_length": _measured(problem, values["brace_share"] * span),
            "tape": "fibre mesh tape" if "fibre mesh tape" in bench.tapes else None,
        },
        "attachment": {
            "bands": values["bands"],
            "band": "rubber band 32" if light else "rubber band 64",
            "dowel": "bamboo skewer 4 mm" if light else "hardwood dowel 1/4 in",
        },
    }
    wing |= {"steps": (0.5,)} if stepped else {"creases": values["creases"]}
    if values["controls"] == "ailerons":
        wing["aileron"] = _aileron(problem, values, span=span, chord=chord)
    return wing


def _light(gear: Gear) -> bool:
    return gear.mass < LIGHT / 3


def _runs(problem: Problem, values: Values, *, span: float, stepped: bool) -> list[Table]:
    runs: list[Table] = []
    stick, tape = values["stick"], values["tape"]
    if stick is not None:
        end = _measured(problem, values["stick_share"] * span / 2)
        rod = problem.stock.rods[stick]
        place = "skin bottom" if stepped else "spar bottom"
        runs.append({"kind": rod.kind, "stock": stick, "place": place, "end": end})
    if values["top_stick"] is not None and not stepped:
        end = _measured(problem, values["stick_share"] * span / 2)
        rod = problem.stock.rods[values["top_stick"]]
        runs.append({"kind": rod.kind, "stock": rod.name, "place": "spar top", "end": end})
    if tape is not None and not stepped:
        runs.append({"kind": TAPE_KINDS[tape], "stock": tape, "place": "spar top"})
    return runs


def _aileron(problem: Problem, values: Values, *, span: float, chord: float) -> Table:
    return {
        "kind": "strip",
        "chord": _measured(problem, values["aileron_chord"] * chord, least=0.02),
        "start": _measured(problem, 0.05),
        "end": _measured(problem, span / 2 - 0.03),
        "up": AILERON_THROW[0],
        "down": AILERON_THROW[1],
    }


def _tail(problem: Problem, values: Values, *, area: float, length: float) -> Table:
    aspect, hinge = values["stab_aspect"], round(values["hinge"], 2)
    chord = _measured(problem, math.sqrt(values["stab_share"] * area / aspect), least=0.04)
    span = _measured(problem, values["stab_share"] * area / chord)
    mean = math.sqrt(values["fin_share"] * area / FIN_ASPECT)
    root = _measured(problem, 2.0 * mean / (1.0 + FIN_TAPER), least=0.04)
    height = _measured(problem, values["fin_share"] * area / (0.5 * root * (1.0 + FIN_TAPER)))
    throw = RUDDER_THROW[values["controls"]]
    return {
        "stab": {
            "position": length - chord,
            "span": span,
            "chord": chord,
            "hinge": hinge,
            "up": THROWS[0],
            "down": THROWS[1],
            "stiffener": "bamboo skewer 3 mm",
        },
        "fin": {
            "position": length - root,
            "span": height,
            "chord": root,
            "tip_chord": _measured(problem, FIN_TAPER * root),
            "sweep": math.radians(15.0),
            "hinge": 0.55,
            "up": throw,
            "down": throw,
        },
    }


def _fuselage(problem: Problem, values: Values, *, length: float) -> Table:
    height = _measured(problem, values["height"])
    return {
        "build": "profile",
        "length": length,
        "nose_height": min(_measured(problem, 0.06), height),
        "height": height,
        "tail_height": _measured(problem, 0.03),
        "layers": values["layers"],
        "saddle_layers": max(values["saddle"], values["layers"]),
        "nose_layers": max(values["saddle"], values["layers"]),
    }


def _power(problem: Problem, values: Values, gear: Gear, *, place: float) -> Table:
    small = problem.stock.motors[gear.motor].mass.typical < SMALL_MOTOR
    firewall: Table = {"stock": values["firewall"]}
    firewall |= {"width": 0.032, "height": 0.036, "screws": 3} if small else {}
    pack = {name: value for name, value in gear.pack.model_dump().items() if value is not None}
    return {
        "motor": {
            "stock": gear.motor,
            "down_thrust": _angle(values["down_thrust"]),
            "right_thrust": _angle(values["right_thrust"]),
            "firewall": firewall,
        },
        "propeller": {
            "kind": gear.propeller.kind,
            "diameter": gear.propeller.diameter,
            "pitch": gear.propeller.pitch,
            "blades": gear.propeller.blades,
        },
        "controller": {"stock": gear.controller},
        "pack": {**pack, "position": place},
    }


def _servos(problem: Problem, values: Values, *, span: float) -> list[Table]:
    stock = problem.wishes.bench.servos
    roles = {"elevator": 0.0, "rudder": 0.0}
    if values["controls"] == "ailerons":
        side = _measured(problem, 0.25 * span / 2)
        roles = {"aileron left": -side, "aileron right": side} | roles
    small = problem.stock.servos[stock].mass.typical < 0.008
    rod: Table = {"rod": "music wire 0.8 mm", "rod_support": 0.11} if small else {}
    return [
        {"role": r, "stock": stock, **({"side": s} if s else {}), **rod} for r, s in roles.items()
    ]
