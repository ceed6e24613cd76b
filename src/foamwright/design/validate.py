"""Shapes that cannot be: what several keys say together, checked after each has been read.

Every rule is a plain function from a design to the faults it finds. Limits here catch what cannot
be built or flown at all; what is merely poor is for the checks to say.
"""

import math
from collections.abc import Callable

from foamwright.core.errors import DesignError
from foamwright.core.units import format_value
from foamwright.design.fields import degrees
from foamwright.design.model import Design, TailSurface
from foamwright.design.validate_wing import WING_RULES, half_span, root_chord, say_length

LEAST_TAIL_ANGLE = degrees(15)  # a flatter V has next to no yaw control; common practice
LEAST_ROOM = 0.02  # m between the margins of a sheet; any part is larger
SLACK = 1e-9  # m, so that rounding never makes an end meet its start
OVERHANG = 0.05  # m, by which a controller or servo may stand over an end; assumed


def validate(design: Design) -> list[DesignError]:
    """Everything about a design that cannot be built as written.

    Args:
        design: The design, each value within its own limits. [-]

    Returns:
        One error a fault; empty when the design can be built. [-]

    Source:
        Geometry; limits of the trade as said beside each.

    Example:
        >>> validate(design)
        []
    """
    return [fault for rule in RULES for fault in rule(design)]


def _tail_place(design: Design) -> list[DesignError]:
    faults: list[DesignError] = []
    trailing, length = design.wing.position + root_chord(design), design.fuselage.length
    surfaces: list[tuple[str, TailSurface | None]] = [("stab", design.stab), ("fin", design.fin)]
    for key, surface in surfaces:
        if surface is None:
            continue
        got = say_length(design, surface.position)
        if surface.position < trailing - SLACK:
            words = f"it must be behind the wing's trailing edge, at {say_length(design, trailing)}"
            faults.append(DesignError(f"{key}.position", got, words, f"Move the {key} aft."))
        if surface.position > length + SLACK:
            end = say_length(design, length)
            words = f"the {key} would stand behind the fuselage, which ends at {end}"
            fix = f"Move the {key} forward or make the fuselage longer."
            faults.append(DesignError(f"{key}.position", got, words, fix))
        faults += _tip(design, key, surface)
    return faults


def _tip(design: Design, key: str, surface: TailSurface) -> list[DesignError]:
    """A tip swept clear of its root is no surface."""
    tip = surface.chord if surface.tip_chord is None else surface.tip_chord
    half = surface.span if key == "fin" else surface.span / 2
    leading = abs(half * math.tan(surface.sweep))
    if leading <= surface.chord + tip:
        return []
    got = format_value(surface.sweep, "angle")
    words = f"its tip would lie {say_length(design, leading)} from its root, clear of the surface"
    return [DesignError(f"{key}.sweep", got, words, "Sweep it less.")]


def _tail_kind(design: Design) -> list[DesignError]:
    kind, faults = design.tail.kind, list[DesignError]()
    if kind != "V":
        if design.fin is None:
            fix = 'Add [fin] with position, span and chord, or write kind = "V" under [tail].'
            faults.append(DesignError("fin", "missing", f"a {kind} tail needs one", fix))
        return faults
    if design.fin is not None:
        fix = 'Take [fin] out, or write kind = "plain" under [tail].'
        faults.append(DesignError("fin", "there", "a V-tail has no fin", fix))
    if abs(design.stab.dihedral) < LEAST_TAIL_ANGLE:
        got = format_value(design.stab.dihedral, "angle")
        words = "each half of a V-tail stands at 15 deg or more"
        fix = 'Write dihedral = "35 deg" under [stab].'
        faults.append(DesignError("stab.dihedral", got, words, fix))
    return faults


def _fuselage(design: Design) -> list[DesignError]:
    body, faults = design.fuselage, list[DesignError]()
    if body.build != "profile":
        return faults
    for key, layers in (("saddle_layers", body.saddle_layers), ("nose_layers", body.nose_layers)):
        if layers < body.layers:
            words = f"it counts all layers there, so at least the {body.layers} of the rest"
            fix = f"Write {key} = {body.layers} or more."
            faults.append(DesignError(f"fuselage.{key}", str(layers), words, fix))
    if body.nose_length is not None and body.nose_length > body.length:
        words = f"the fuselage is only {say_length(design, body.length)} long"
        got = say_length(design, body.nose_length)
        faults.append(DesignError("fuselage.nose_length", got, words, "Make it shorter."))
    return faults


def _stations(design: Design) -> list[DesignError]:
    stations, faults = design.fuselage.station, list[DesignError]()
    if len(stations) == 1:
        words = "an outline needs at least two, at the nose and at the tail end"
        return [DesignError("fuselage.station", "a single one", words, "Add another.")]
    for index, station in enumerate(stations):
        key, x = f"fuselage.station.{index}", say_length(design, station.x)
        if index and station.x <= stations[index - 1].x:
            before = say_length(design, stations[index - 1].x)
            words = f"it must be aft of the one before, at {before}"
            faults.append(DesignError(f"{key}.x", x, words, "List them from nose to tail."))
        if station.x > design.fuselage.length + 1e-6:
            words = f"the fuselage ends at {say_length(design, design.fuselage.length)}"
            faults.append(DesignError(f"{key}.x", x, words, "Move it, or lengthen the fuselage."))
        if station.top <= station.bottom:
            words = f"it must be above the bottom, {say_length(design, station.bottom)}"
            got = say_length(design, station.top)
            faults.append(DesignError(f"{key}.top", got, words, "Swap them."))
    return faults


def _off_the_body(
    design: Design, key: str, place: float | None, overhang: float = 0.0
) -> list[DesignError]:
    """A place along the fuselage must lie on it."""
    length = design.fuselage.length
    if place is None or -overhang <= place <= length + overhang:
        return []
    where = "ahead of the nose" if place < 0.0 else "behind the tail end"
    words = f"that is {where}; 0 to {say_length(design, length)} is accepted"
    got = say_length(design, place)
    return [DesignError(key, got, words, "Measure from the nose, aft is positive.")]


def _pack(design: Design) -> list[DesignError]:
    pack, length = design.pack, design.fuselage.length
    faults = _off_the_body(design, "pack.position", pack.position)
    faults += _off_the_body(design, "pack.tray_front", pack.tray_front)
    faults += _off_the_body(design, "pack.tray_back", pack.tray_back)
    if faults:
        return faults
    front = 0.0 if pack.tray_front is None else pack.tray_front
    back = length if pack.tray_back is None else pack.tray_back
    if front > back:
        words = f"it must be ahead of tray_back, {say_length(design, back)}"
        got = say_length(design, front)
        return [DesignError("pack.tray_front", got, words, "Swap or mend them.")]
    if not front - 1e-6 <= pack.position <= back + 1e-6:
        words = f"the tray reaches from {say_length(design, front)} to {say_length(design, back)}"
        fix = "Move the pack, or widen the tray."
        return [DesignError("pack.position", say_length(design, pack.position), words, fix)]
    return []


def _outfit(design: Design) -> list[DesignError]:
    """Things fixed to the fuselage lie on it, and servos within the span."""
    faults = _off_the_body(design, "controller.position", design.controller.position, OVERHANG)
    faults += _off_the_body(design, "receiver.position", design.receiver.position, OVERHANG)
    if design.gear is not None:
        faults += _off_the_body(design, "gear.position", design.gear.position)
    half = half_span(design)
    for index, servo in enumerate(design.servo):
        faults += _off_the_body(design, f"servo.{index}.position", servo.position, OVERHANG)
        if abs(servo.side) > half:
            words = f"the half span is {say_length(design, half)}"
            got = say_length(design, servo.side)
            faults.append(DesignError(f"servo.{index}.side", got, words, "Bring it inboard."))
    return faults


def _roles(design: Design) -> list[DesignError]:
    faults: list[DesignError] = []
    for index, servo in enumerate(design.servo):
        key, got = f"servo.{index}.role", f'"{servo.role}"'
        if servo.role.startswith("aileron") and design.wing.aileron is None:
            fix = "Add [wing.aileron], or take the servo out."
            faults.append(DesignError(key, got, "this wing has no ailerons", fix))
        if servo.role.startswith("vee") and design.tail.kind != "V":
            fix = 'Write role = "elevator" or "rudder".'
            faults.append(DesignError(key, got, f"the tail is {design.tail.kind}, not V", fix))
        if servo.role in ("elevator", "rudder") and design.tail.kind == "V":
            fix = 'Write role = "vee left" and role = "vee right".'
            faults.append(DesignError(key, got, "a V-tail has neither", fix))
    return faults


def _board(design: Design) -> list[DesignError]:
    """A sheet keeps room between its margins."""
    board = design.board
    room = min(board.length, board.width) - 2 * board.margin
    if room >= LEAST_ROOM:
        return []
    got = say_length(design, board.margin)
    words = f"a sheet {say_length(design, board.width)} wide has no room left between its margins"
    return [DesignError("board.margin", got, words, 'Use "6 mm".')]


RULES: tuple[Callable[[Design], list[DesignError]], ...] = (
    *WING_RULES,
    _board,
    _tail_place,
    _tail_kind,
    _fuselage,
    _stations,
    _pack,
    _outfit,
    _roles,
)
