"""What a design leaves out, and what was taken for it."""

from collections.abc import Callable, Iterator

from foamwright.core.units import format_value
from foamwright.design.keys import dimension_of, inner_table
from foamwright.design.model import Design, Section

# What a key means when it is left out and has no fixed value.
LEFT_OUT = {
    "pilot.throw_speed": "from the all-up mass",
    "board.mass": "from stock",
    "board.thickness": "from stock",
    "board.test.crease_load": "not tested",
    "board.test.sag_load": "not tested",
    "board.test.sag": "not tested",
    "board.test.peeled_mass": "not tested",
    "glue.stick_before": "not tested",
    "glue.stick_after": "not tested",
    "glue.glued_mass": "not tested",
    "wing.height": "on the fuselage, or under it",
    "wing.panel.chord": "tip chord of the panel before",
    "wing.panel.tip_chord": "same as its chord",
    "wing.crease_positions": "spread for a rounded top",
    "wing.bevel": "from the board's thickness",
    "wing.reinforcement.stock": "the usual one of its kind",
    "wing.reinforcement.end": "to the end of the spar",
    "wing.joint.brace": "no brace",
    "wing.joint.brace_height": "height of the spar",
    "wing.joint.tape": "no tape",
    "wing.aileron": "no ailerons",
    "wing.aileron.chord": "18 % of the mean chord",
    "wing.aileron.end": "20 mm short of the tip",
    "stab.tip_chord": "same as its chord",
    "stab.height": "from the fuselage and the kind of tail",
    "stab.stiffener": "bare board",
    "fin": "no fin",
    "fin.tip_chord": "same as its chord",
    "fin.height": "from the fuselage and the kind of tail",
    "fin.stiffener": "bare board",
    "fuselage.nose_length": "12 % of the length",
    "motor.kv": "from stock",
    "motor.mass": "from stock",
    "motor.resistance": "from stock",
    "motor.no_load_current": "from stock",
    "motor.max_current": "from stock",
    "propeller.line": "not known",
    "propeller.mass": "from its kind and size",
    "controller.current": "from stock",
    "controller.mass": "from stock",
    "controller.position": "behind the firewall",
    "pack.mass": "from its energy",
    "pack.discharge_rating": "not known",
    "pack.resistance": "from its capacity and cells",
    "pack.length": "from its energy",
    "pack.tray_front": "as far forward as the fuselage allows",
    "pack.tray_back": "the wing's trailing edge",
    "receiver.mass": "from stock",
    "receiver.position": "under the wing",
    "servo.mass": "from stock",
    "servo.position": "from its role",
    "servo.height": "from its role",
    "gear": "no gear, a belly lander",
    "covering.stock": "bare paper",
    "glue.mass": "a share of the airframe",
}
SILENT = {
    "notes",
    "builder",
    "servo",
    "extra",
    "gear",
    "fin",
    "board.offcut",
    "board.test.crease_load",
    "board.test.sag_load",
    "board.test.sag",
    "board.test.span",
    "board.test.width",
    "board.test.peeled_mass",
    "glue.stick_before",
    "glue.stick_after",
    "glue.glued_mass",
    "wing.reinforcement",
    "wing.aileron",
    "wing.target",
    "fuselage.station",
    "field.name",
}


def _not_folded(design: Design) -> bool:
    return design.wing.build != "folded"


def _not_profile(design: Design) -> bool:
    return design.fuselage.build != "profile"


def _bare(design: Design) -> bool:
    return design.covering.stock is None


# Keys that say nothing about a design of another kind.
MEANINGLESS: dict[str, Callable[[Design], bool]] = {
    "wing.creases": _not_folded,
    "wing.crease_positions": _not_folded,
    "wing.bevel": _not_folded,
    "wing.steps": lambda design: design.wing.build != "stepped",
    "fuselage.layers": _not_profile,
    "fuselage.saddle_layers": _not_profile,
    "fuselage.nose_layers": _not_profile,
    "fuselage.nose_length": _not_profile,
    "fuselage.width": lambda design: design.fuselage.build != "box",
    "fuselage.nose_height": lambda design: bool(design.fuselage.station),
    "fuselage.height": lambda design: bool(design.fuselage.station),
    "fuselage.tail_height": lambda design: bool(design.fuselage.station),
    "wing.attachment.bands": lambda design: design.wing.attachment.kind != "bands",
    "wing.attachment.band": lambda design: design.wing.attachment.kind != "bands",
    "wing.attachment.dowel": lambda design: design.wing.attachment.kind != "bands",
    "wing.attachment.bolts": lambda design: design.wing.attachment.kind != "bolts",
    "wing.attachment.bolt": lambda design: design.wing.attachment.kind != "bolts",
    "wing.joint.brace_length": lambda design: design.wing.joint.brace is None,
    "wing.joint.brace_height": lambda design: design.wing.joint.brace is None,
    "covering.wing": _bare,
    "covering.fuselage": _bare,
    "covering.tail": _bare,
    "stab.stiffener_extent": lambda design: design.stab.stiffener is None,
    "fin.stiffener_extent": lambda design: design.fin is None or design.fin.stiffener is None,
    "fin.incidence": lambda design: True,
    "fin.dihedral": lambda design: True,
}


def defaults_used(design: Design) -> list[dict[str, str | float | int | bool | None]]:
    """Every key that the design leaves out, with what was taken for it.

    Args:
        design: As read from its file. [-]

    Returns:
        For each: "key" dotted, "value" in SI (None when it follows from the rest), and "words" in
        the units of the design; keys that say nothing about this kind of plane are passed over. [-]

    Source:
        Definition.

    Example:
        >>> defaults_used(design)[0]["key"]
        'pilot.throw_speed'
    """
    found: list[dict[str, str | float | int | bool | None]] = []
    for key, plain, table, name in _left_out(design, "", ""):
        rule = MEANINGLESS.get(plain)
        if plain in SILENT or (rule is not None and rule(design)):
            continue
        value = getattr(table, name)
        words = _words(value, plain, dimension_of(type(table), name), design.units)
        held = value if isinstance(value, (str, float, int, bool)) else None
        found.append({"key": key, "value": held, "words": words})
    return found


def _left_out(table: Section, key: str, plain: str) -> Iterator[tuple[str, str, Section, str]]:
    """Dotted key, the same without indexes, and where it stands."""
    for name in type(table).model_fields:
        value = getattr(table, name)
        here, bare = f"{key}{name}", f"{plain}{name}"
        if isinstance(value, Section):
            yield from _left_out(value, f"{here}.", f"{bare}.")
        elif isinstance(value, tuple) and value and isinstance(value[0], Section):
            for index, item in enumerate(value):
                yield from _left_out(item, f"{here}.{index}.", f"{bare}.")
        elif name not in table.model_fields_set and not (
            value is None and inner_table(type(table), name) is not None
        ):
            yield here, bare, table, name


def _words(value: object, plain: str, dimension: str | None, units: str) -> str:
    if value is None:
        return LEFT_OUT.get(plain, "none")
    if isinstance(value, tuple):
        return ", ".join(format_value(item, dimension or "fraction", units) for item in value)
    if dimension is not None and isinstance(value, float):
        return format_value(value, dimension, units)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value) or "none"
