"""What to make sure of before going on, computed from the design; and what to write down."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.checks.side_balance import LEAST_CLAY, tip_clay
from foamwright.core.units import format_value
from foamwright.sheets.gauges import Gauge, gauges_of
from foamwright.sheets.words import angle_words, length_words

if TYPE_CHECKING:
    from foamwright.book.model import Step
    from foamwright.plane import Plane

TWIST = math.radians(0.5)  # that hands can build to; common practice
LEVEL = math.radians(1.0)  # of stab and fin; common practice


def checks_of(plane: Plane, step: Step) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Checks and boxes of a step.

    Args:
        plane: The plane. [-]
        step: The step. [-]

    Returns:
        What to make sure of, and the names of what to measure and write down. [-]

    Source:
        The design's angles; tolerances: common practice.

    Example:
        >>> checks_of(plane, step)[1]  # doctest: +SKIP
        ('twist right tip', 'twist left tip')
    """
    found = _TABLE.get(step.id)
    return ((), ()) if found is None else found(plane)


type _Told = tuple[tuple[str, ...], tuple[str, ...]]


def _gauges(plane: Plane, start: str) -> list[Gauge]:
    return [gauge for gauge in gauges_of(plane) if gauge.name.startswith(start)]


def _said(gauge: Gauge) -> str:
    words = f": {gauge.words}" if gauge.words else ""
    return f"{gauge.name[0].upper()}{gauge.name[1:]} {angle_words(gauge.angle)}{words}."


def _cut(plane: Plane) -> _Told:
    board = plane.design.board
    whole = board.mass
    if whole is None:
        sold = plane.stock.boards.get(board.stock)
        whole = 0.0 if sold is None else board.length * board.width * sold.areal_mass.typical
    return (
        (
            f"One whole sheet weighs about {format_value(whole, 'mass', plane.design.units)}"
            " by the design; put your own figure under [board] mass and everything follows.",
        ),
        ("mass of one whole sheet",),
    )


def _panels(plane: Plane) -> _Told:
    washouts = _gauges(plane, "washout")
    told = [_said(gauge) for gauge in washouts]
    root = plane.airframe.wing.panels[-1]
    slack = max(round(root.tip_chord * math.sin(TWIST), 3), 0.001)
    if not washouts:
        told.append("No twist: each panel lies flat on the table at all four corners.")
    told.append(
        f"Both sides alike: trailing edges at the tips within "
        f"{length_words(slack, plane.design.units)}"
        f" ({angle_words(TWIST)}), measured once the glue has set."
    )
    told += [_said(gauge) for gauge in _gauges(plane, "spar top")]
    return tuple(told), (
        "twist at the right tip",
        "twist at the left tip",
        "mass right",
        "mass left",
    )


def _breaks(plane: Plane) -> _Told:
    return tuple(_said(g) for g in _gauges(plane, "dihedral, panel") if "panel 1" not in g.name), (
        "tip height right",
        "tip height left",
    )


def _centre(plane: Plane) -> _Told:
    panel = plane.design.wing.panel[0]
    lift = panel.span * math.sin(2 * panel.dihedral)
    words = (
        f"One half flat, the other's inner panel rises "
        f"{length_words(abs(lift), plane.design.units)} "
        f"over its span: {angle_words(panel.dihedral)} each side."
    )
    told = [words] if abs(panel.dihedral) > 1e-4 else ["Both halves flat on the table."]
    told += [_said(g) for g in _gauges(plane, "spar and root ends at the centre")]
    told.append("Lift it by both tips: the lower seam must not open.")
    return tuple(told), ("mass of the wing",)


def _firewall(plane: Plane) -> _Told:
    motor = plane.design.motor
    told = (
        f"Down thrust {angle_words(motor.down_thrust)}, right thrust "
        f"{angle_words(motor.right_thrust)} "
        "(seen from the cockpit), gauge held behind the firewall.",
        "Pull at it: nothing rocks.",
    )
    return told, ("down thrust", "right thrust")


def _seat(plane: Plane) -> _Told:
    told = tuple(_said(g) for g in _gauges(plane, "wing incidence")) or (
        "The wing's flat underside lies along the fuselage line.",
    )
    return told, ("wing incidence",)


def _tail(plane: Plane) -> _Told:
    span = plane.airframe.stab.span
    slack = length_words(round(span * math.sin(LEVEL), 3), plane.design.units)
    if plane.design.tail.kind == "V":
        angle = angle_words(plane.design.stab.dihedral)
        return (
            f"Each half stands {angle} above level, within {angle_words(LEVEL)}: the template.",
            f"Both tips alike from the nose and from the wing tips, within {slack}.",
        ), ()
    return (
        f"Stab level with the wing: tips within {slack} of each other ({angle_words(LEVEL)}).",
        f"Both stab tips alike from the nose, within {slack}.",
        "Fin square to the stab: a set square on both sides.",
    ), ()


def _body(plane: Plane) -> _Told:
    return ("Look along it from the tail: straight, no twist.",), ("mass of the fuselage",)


def _balance(plane: Plane) -> _Told:
    units, balance = plane.design.units, plane.balance
    mass, band = balance.all_up_mass, balance.mass_band
    told = (
        f"All-up {format_value(mass, 'mass', units)} "
        f"({format_value(band.low, 'mass', units)} to {format_value(band.high, 'mass', units)}).",
        f"Balances {length_words(balance.cg[0], units)} aft of the nose; see the set-up page.",
        *_level(plane),
    )
    return told, ("all-up mass", "CG aft of the nose", "pack's middle aft of the nose")


def _level(plane: Plane) -> tuple[str, ...]:
    """Which wing hangs low as drawn, and what levels it."""
    clay, side = tip_clay(plane)
    if clay < LEAST_CLAY:
        return ()
    heavy, light = ("right", "left") if side < 0.0 else ("left", "right")
    return (
        f"As drawn the {heavy} wing hangs low; "
        f"{format_value(clay, 'mass', plane.design.units)} of clay in the {light} wing tip levels "
        "it.",
    )


def _set_up(plane: Plane) -> _Told:
    return ("Every throw as on the set-up page, both sides alike.",), ()


_TABLE = {
    "cut-wing": _cut,
    "panels": _panels,
    "breaks": _breaks,
    "centre": _centre,
    "firewall": _firewall,
    "seat": _seat,
    "tail": _tail,
    "body": _body,
    "balance": _balance,
    "set-up": _set_up,
}
