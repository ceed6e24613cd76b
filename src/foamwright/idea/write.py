"""The design file of a proposal, each figure with a comment that says where it came from."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from foamwright.core.units import format_value
from foamwright.design.keys import dimension_at, inner_table, owner_of
from foamwright.design.load import parse_design
from foamwright.idea.aims import AIMS
from foamwright.idea.propose import Proposal, compared

WIDTH = 32  # column of the comments
WISHED = "from the wishes"
USUAL = "usual, not searched"
SOLVED = "solved: balances midway between the limits of the balance point"
# Table or key -> where its figures come from.
ORIGINS: dict[str, str] = {
    "field": WISHED,
    "pilot": WISHED,
    "board": WISHED,
    "units": WISHED,
    "receiver": "from the bench",
    "controller": "the lightest on the bench that stands the current",
    "motor.stock": "from the bench",
    "propeller": "searched among the bench's",
    "pack.position": SOLVED,
    "pack": "searched among the bench's",
    "wing.position": "searched, then moved so that the pack's tray reaches",
    "wing.place": USUAL,
    "wing.build": "searched among what is wished",
    "wing.attachment.bands": "searched",
    "wing.attachment": "by the size of the plane",
    "wing.joint.brace_length": "searched",
    "wing.joint": "from the bench",
    "wing.spar.strips": USUAL,
    "wing.aileron.chord": "searched",
    "wing.aileron": USUAL,
    "wing": "searched",
    "stab.up": USUAL,
    "stab.down": USUAL,
    "stab.stiffener": USUAL,
    "stab.position": "flush with the tail end",
    "stab": "searched",
    "fin.position": "flush with the tail end",
    "fin.sweep": USUAL,
    "fin.hinge": USUAL,
    "fin.up": USUAL,
    "fin.down": USUAL,
    "fin": "searched",
    "fuselage.build": USUAL,
    "fuselage.nose_height": USUAL,
    "fuselage.tail_height": USUAL,
    "fuselage": "searched",
    "motor.firewall.stock": "searched among the bench's",
    "motor.firewall": "by the size of the motor",
    "motor": "searched",
    "servo.side": USUAL,
    "servo": "from the bench",
}


def design_text(proposal: Proposal, *, name: str | None = None) -> str:
    """The design file of a proposal.

    Args:
        proposal: The proposal. [-]
        name: Of the plane; None takes the wished name and the proposal's letter. [-]

    Returns:
        TOML, read back and found to be the same plane. [-]

    Source:
        Definition.

    Example:
        >>> design_text(proposal).splitlines()[0]  # doctest: +SKIP
        '# Reed Wren A: all-rounder.'
    """
    design = proposal.plane.design
    title = name or f"{design.name} {proposal.letter}"
    tree = design.model_dump(exclude_unset=True) | {"name": title}
    tree["notes"] = _notes(proposal)
    lines = [f"# {title}: {proposal.title}.", *_head(proposal), ""]
    lines += _table(tree, (), design.units, _shares(proposal))
    text = "\n".join(lines) + "\n"
    parse_design(text)
    return text


def _notes(proposal: Proposal) -> str:
    return f"{proposal.good[0].upper()}{proposal.good[1:]}; on the other hand: {proposal.bad}."


def _head(proposal: Proposal) -> list[str]:
    figures = compared(proposal)
    units = proposal.plane.design.units
    words = next((aim.words for aim in AIMS if aim.name == proposal.title), "")
    lines = [
        f"# Found by a search for a plane that {words}.",
        f"# Stalls at {format_value(figures['stall_speed'], 'speed', units)}, flies "
        f"{figures['endurance'] / 60:.0f} min, weighs "
        f"{format_value(figures['mass'], 'mass', units)}, takes {figures['boards']:.0f} boards;",
        f"# every check passes in about {100 * figures['share']:.0f} % of builds.",
        "# Why it is not better still:",
    ]
    lines += [f"#   {limit.words}" for limit in proposal.limits]
    return lines if proposal.limits else lines[:-1]


def _shares(proposal: Proposal) -> dict[str, str]:
    """What some figures are as a share, in the trade's terms."""
    aero, design = proposal.plane.aero, proposal.plane.design
    stab = design.stab.span * design.stab.chord / aero.wing_area
    aspect = aero.span**2 / aero.wing_area
    found = {
        "stab.span": f"stab area {100 * stab:.0f} % of the wing",
        "wing.panel.0.chord": f"aspect ratio {aspect:.1f}",
        "fuselage.length": f"{100 * design.fuselage.length / aero.span:.0f} % of the span",
        "wing.position": f"{100 * design.wing.position / aero.span:.0f} % of the span",
    }
    if design.fin is not None:
        fin = design.fin
        area = 0.5 * fin.span * (fin.chord + (fin.tip_chord or fin.chord))
        found["fin.span"] = f"fin area {100 * area / aero.wing_area:.0f} % of the wing"
    return found


def _table(
    tree: Mapping[str, Any], path: tuple[str | int, ...], units: str, shares: Mapping[str, str]
) -> list[str]:
    """The plain values of a table, then the tables in it."""
    lines: list[str] = []
    inner: list[tuple[str, Any]] = []
    for name, value in tree.items():
        owner = owner_of((*path, name))
        if owner is None or value is None:
            continue
        if inner_table(*owner) is not None:
            inner.append((name, value))
        else:
            lines.append(_line((*path, name), value, units, shares))
    for name, value in inner:
        entries = list(enumerate(value)) if isinstance(value, (tuple, list)) else [(None, value)]
        for index, entry in entries:
            where = (*path, name) if index is None else (*path, name, index)
            words = ".".join(str(part) for part in where if isinstance(part, str))
            body = _table(entry, where, units, shares)
            if body:
                lines += ["", f"[{words}]" if index is None else f"[[{words}]]", *body]
    return lines


def _line(path: tuple[str | int, ...], value: object, units: str, shares: Mapping[str, str]) -> str:
    key = f"{path[-1]} = {_value(path, value, units)}"
    plain = ".".join(str(part) for part in path)
    words = [w for w in (_origin(path), shares.get(plain, "")) if w]
    return f"{key:<{WIDTH}} # {'; '.join(words)}" if words else key


def _origin(path: tuple[str | int, ...]) -> str:
    names = [str(part) for part in path if isinstance(part, str)]
    for length in range(len(names), 0, -1):
        found = ORIGINS.get(".".join(names[:length]))
        if found:
            return found
    return ""


def _value(path: tuple[str | int, ...], value: object, units: str) -> str:
    dimension = dimension_at(path)
    units = "inch" if path[0] == "propeller" else units  # as printed on it
    if isinstance(value, (tuple, list)):
        return "[" + ", ".join(_plain(item, dimension, units) for item in value) + "]"
    return _plain(value, dimension, units)


def _plain(value: object, dimension: str | None, units: str) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        escaped = value.replace("\\", "\\\\").replace('"', '\\"')
        return f'"{escaped}"'
    if dimension is None or not isinstance(value, (int, float)):
        return str(value)
    number = _tidy(float(value), dimension)
    if dimension == "fraction":
        return f"{number:.6g}"
    return f'"{format_value(number, dimension, units, precise=True)}"'


def _tidy(value: float, dimension: str) -> float:
    """Without the dust of binary fractions: angles to a hundredth of a degree."""
    return math.radians(round(math.degrees(value), 2)) if dimension == "angle" else value
