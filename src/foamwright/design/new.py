"""A commented starting file from a few answers, sized by the ratios of the trade."""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.core.unit_table import INCH
from foamwright.core.units import format_value
from foamwright.design.new_sizes import KINDS, POWER, Kind, PowerSize
from foamwright.design.new_text import (
    AILERON,
    AILERON_PANEL,
    CARBON_RUN,
    FOLDED,
    NO_SPAR,
    RUDDER_PANELS,
    START,
    STEPPED,
    TAPE_RUN,
    WEIGH,
)

SMALLEST_SPAN = 0.5  # m; foam board of one thickness is too heavy for less, assumed
LARGEST_SPAN = 2.4  # m; and too weak for more, assumed
STAB_ASPECT = 3.0  # span over chord, common practice
FIN_ASPECT = 1.2  # height over mean chord, common practice
FIN_TAPER = 0.65  # tip over root chord, common practice
LONG_WING = 7.0  # span over chord from which board alone is too weak, computed for 1.5 m
_COMMENT = re.compile(r"^(#? ?[a-z_]+ = (?:\"[^\"]*\"|\S+)|\[\[?[a-z.]+\]\]?)\s+(# .*)$")


@dataclass(frozen=True, slots=True)
class Answers:
    """What the builder says of a plane to be; None leaves the choice to common practice.

    Attributes:
        name: Of the plane.
        kind: A key of KINDS.
        span: Tip to tip. [m]
        units: "metric" or "inch".
        controls: "ailerons" or "rudder".
        motor: Stock name.
        cells: Of the pack, in series. [-]
        capacity: Of the pack. [A s]
        board_mass: One whole sheet, weighed. [kg]
        propeller: Kind, diameter [m] and pitch [m].
        controller: Stock name.
        pack_position: Middle of the pack aft of the nose. [m]
    """

    name: str
    kind: str = "trainer"
    span: float | None = None
    units: str = "metric"
    controls: str | None = None
    motor: str | None = None
    cells: int | None = None
    capacity: float | None = None
    board_mass: float | None = None
    propeller: tuple[str, float, float] | None = None
    controller: str | None = None
    pack_position: float | None = None


def new_design_text(answers: Answers) -> str:
    """A starting design file with a comment beside each number that says where it comes from.

    Args:
        answers: What the builder said. [-]

    Returns:
        TOML text that loads without error. [-]

    Raises:
        DesignErrors: An answer is outside what a starting file can be made for.

    Source:
        Ratios of areas and lengths: common practice, no source; see KINDS and POWER.

    Example:
        >>> new_design_text(Answers("Reed Wren", "slow flyer")).splitlines()[0]
        '# Reed Wren: a slow flyer, 1300 mm span.'
    """
    faults = _faults(answers)
    if faults:
        raise DesignErrors(faults)
    kind = KINDS[answers.kind]
    step = INCH / 4 if answers.units == "inch" else 0.005

    def say(length: float) -> str:
        return format_value(max(step, round(length / step) * step), "length", answers.units)

    span = kind.span if answers.span is None else answers.span
    chord = max(step, round(span / kind.aspect / step) * step)
    power = next(size for size in POWER if span * chord <= size.largest)
    rudder_only = (answers.controls or kind.controls) == "rudder"
    figures = _said(answers, kind, power) | _tail(kind, span, chord, say)
    figures |= _wing(kind, span, chord, say) | _body(kind, span, small=power is POWER[0], say=say)
    figures |= _controls(span, power, rudder_only=rudder_only, units=answers.units)
    if answers.pack_position is not None:
        figures["pack_position"] = say(answers.pack_position)
    figures["panels"] = (RUDDER_PANELS if rudder_only else AILERON_PANEL).substitute(figures)
    figures["aileron"] = "" if rudder_only else AILERON.substitute(figures)
    return _aligned(START.substitute(figures))


def _faults(answers: Answers) -> list[DesignError]:
    faults: list[DesignError] = []
    if not 1 <= len(answers.name.strip()) <= 80 or not answers.name.isprintable():
        words = "it must have 1 to 80 characters on one line"
        faults.append(DesignError("name", f'"{answers.name[:40]}"', words))
    for key, value, accepted in (
        ("kind", answers.kind, tuple(KINDS)),
        ("units", answers.units, ("metric", "inch")),
        ("controls", answers.controls or "rudder", ("ailerons", "rudder")),
    ):
        if value not in accepted:
            words = "it must be " + ", ".join(f'"{word}"' for word in accepted)
            faults.append(DesignError(key, f'"{value}"', words))
    units = "inch" if answers.units == "inch" else "metric"
    for key, value, dimension, least, most in (
        ("span", answers.span, "length", SMALLEST_SPAN, LARGEST_SPAN),
        ("capacity", answers.capacity, "charge", 180.0, 72000.0),
        ("board_mass", answers.board_mass, "mass", 0.005, 3.0),
    ):
        if value is not None and not least <= value <= most:
            limits = [format_value(limit, dimension, units) for limit in (least, most)]
            got = format_value(value, dimension, units)
            faults.append(DesignError(key, got, f"it must be {limits[0]} to {limits[1]}"))
    if answers.cells is not None and not 1 <= answers.cells <= 6:
        faults.append(DesignError("cells", str(answers.cells), "it must be 1 to 6"))
    return faults


type Say = Callable[[float], str]


def _said(answers: Answers, kind: Kind, power: PowerSize) -> dict[str, str]:
    """What the answers and the power by size say."""
    mass, capacity = answers.board_mass, answers.capacity or power.capacity
    small = power is POWER[0]
    usual = kind.propeller, power.diameter, power.pitch
    blades, diameter, pitch = answers.propeller or usual
    return {
        "name": _quoted(answers.name.strip()),
        "title": answers.name.strip(),
        "words": kind.words,
        "level": "returning" if answers.kind in ("sport", "glider") else "beginner",
        "units": answers.units,
        "wind": "5 mph" if answers.units == "inch" else "2.5 m/s",
        "board_mass": WEIGH if mass is None else f'mass = "{_grams(mass)}" # weighed, one sheet',
        "motor": _quoted(answers.motor or power.motor),
        "controller": answers.controller or power.controller,
        "propeller": blades,
        "diameter": f"{diameter / INCH:.4g} in",
        "pitch": f"{pitch / INCH:.4g} in",
        "cells": str(answers.cells or power.cells),
        "capacity": format_value(capacity, "charge"),
        "receiver": "receiver 4 channel" if small else "receiver 6 channel",
        "bands": "4" if small else "6",
    }


def _grams(mass: float) -> str:
    return format_value(mass, "mass", precise=True)


def _quoted(text: str) -> str:
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _wing(kind: Kind, span: float, chord: float, say: Say) -> dict[str, str]:
    stepped = kind.build == "stepped"
    width = say(min(INCH, 0.15 * chord)) if chord < 0.17 else "1 in"
    return {
        "span": say(span),
        "half": say(span / 2),
        "inner": say(0.55 * span / 2),
        "outer": say(0.45 * span / 2),
        "chord": say(chord),
        "aspect": f"{kind.aspect:g}",
        "build": kind.build,
        "section": STEPPED if stepped else FOLDED,
        "strength": _strength(kind, span, chord, say),
        "spar": NO_SPAR if stepped else f'strips = 2\nstrip_width = "{width}"',
        "position": say(kind.nose * span),
        "nose_share": f"{100 * kind.nose:.0f} %",
        "pack_position": say(kind.pack * kind.nose * span),
    }


def _strength(kind: Kind, span: float, chord: float, say: Say) -> str:
    if kind.build == "stepped" or span * chord <= POWER[0].largest:
        return ""
    if kind.aspect < LONG_WING:
        return TAPE_RUN
    return CARBON_RUN.substitute(end=say(0.5 * span / 2))


def _tail(kind: Kind, span: float, chord: float, say: Say) -> dict[str, str]:
    area, length = span * chord, kind.length * span
    stab_chord = math.sqrt(kind.stab * area / STAB_ASPECT)
    fin_mean = math.sqrt(kind.fin * area / FIN_ASPECT)
    fin_chord = 2 * fin_mean / (1 + FIN_TAPER)
    return {
        "stab_position": say(length - stab_chord),
        "stab_span": say(STAB_ASPECT * stab_chord),
        "stab_chord": say(stab_chord),
        "stab_share": f"{100 * kind.stab:.0f} %",
        "fin_position": say(length - fin_chord),
        "fin_height": say(FIN_ASPECT * fin_mean),
        "fin_chord": say(fin_chord),
        "fin_tip": say(FIN_TAPER * fin_chord),
        "fin_share": f"{100 * kind.fin:.0f} %",
    }


def _body(kind: Kind, span: float, *, small: bool, say: Say) -> dict[str, str]:
    layers = 3 if small else 7
    return {
        "length": say(kind.length * span),
        "length_share": f"{100 * kind.length:.0f} %",
        "nose_height": say(0.05 if small else 0.06),
        "height": say(0.065 if small else 0.09),
        "tail_height": say(0.03),
        "layers": str(kind.layers),
        "saddle": str(max(layers, kind.layers)),
    }


def _controls(span: float, power: PowerSize, *, rudder_only: bool, units: str) -> dict[str, str]:
    step = INCH / 4 if units == "inch" else 0.005

    def say(length: float) -> str:
        return format_value(round(length / step) * step, "length", units)

    roles = {"elevator": 0.0, "rudder": 0.0}
    if not rudder_only:
        roles |= {"aileron left": -span / 4, "aileron right": span / 4}
    servos = [
        f'[[servo]]\nrole = "{role}"\nstock = "{power.servo}"'
        + (f'\nside = "{say(side)}"' if side else "")
        for role, side in roles.items()
    ]
    chord = span / 6
    return {
        "servos": "\n\n".join(servos),
        "incidence": "2 deg" if rudder_only else "1 deg",
        "incidence_words": "1 to 3 deg without ailerons" if rudder_only else "0 to 1 deg",
        "rudder": "25 deg" if rudder_only else "20 deg",
        "aileron_chord": say(max(0.02, 0.17 * chord)),
        "aileron_start": say(0.05),
        "aileron_end": say(span / 2 - 0.03),
    }


def _aligned(text: str) -> str:
    """Comments behind values in one column."""
    lines: list[str] = []
    for line in text.splitlines():
        found = _COMMENT.match(line)
        lines.append(f"{found[1]:<28} {found[2]}" if found else line.rstrip())
    return "\n".join(lines) + "\n"
