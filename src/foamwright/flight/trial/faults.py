"""Faults as a builder names them: "left-twist=2 deg", "cg=10 mm"."""

import difflib
from collections.abc import Sequence
from dataclasses import dataclass, replace

from foamwright.core.errors import ModelError
from foamwright.core.units import UnitError, parse
from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws


@dataclass(frozen=True, slots=True)
class Fault:
    """One kind of fault.

    Attributes:
        field: Of Flaws.
        dimension: Of its value; "fraction" is a share more or less than drawn.
        most: Largest size that makes sense. [as dimension]
        meaning: Of a positive value.
    """

    field: str
    dimension: str
    most: float
    meaning: str


FAULTS: dict[str, Fault] = {
    "left-twist": Fault("left_twist", "angle", 0.2, "left panel warped leading edge up at the tip"),
    "right-twist": Fault("right_twist", "angle", 0.2, "right panel warped leading edge up"),
    "cg": Fault("cg_shift_aft", "length", 0.2, "CG aft of where it is drawn"),
    "cg-right": Fault("cg_shift_right", "length", 0.1, "CG to the right of the middle"),
    "mass": Fault("mass_factor", "fraction", 1.0, "heavier than drawn"),
    "drag": Fault("drag_factor", "fraction", 3.0, "more drag than drawn"),
    "down-thrust": Fault("thrust_down_error", "angle", 0.35, "thrust line more down than drawn"),
    "right-thrust": Fault("thrust_right_error", "angle", 0.35, "thrust line more to the right"),
    "incidence": Fault("incidence_error", "angle", 0.15, "wing set more leading edge up"),
    "stab": Fault("stab_incidence_error", "angle", 0.15, "stab set more leading edge up"),
    "fin": Fault("fin_error", "angle", 0.15, "fin set leading edge to the right"),
    "left-tip": Fault("left_tip_mass", "mass", 0.2, "mass at the left tip"),
    "right-tip": Fault("right_tip_mass", "mass", 0.2, "mass at the right tip"),
    "power": Fault("motor_factor", "fraction", 1.0, "more thrust than computed; -20 % is weak"),
    "pack": Fault("pack_resistance_factor", "fraction", 9.0, "more resistance in the pack"),
    "aileron": Fault("aileron_neutral", "angle", 0.3, "right aileron down, left one up, centred"),
    "elevator": Fault("elevator_neutral", "angle", 0.35, "elevator down with the stick centred"),
    "rudder": Fault("rudder_neutral", "angle", 0.35, "rudder to the left with the stick centred"),
    "slop": Fault("slop", "angle", 0.35, "free play of the surfaces"),
}
USUAL = {"angle": "2deg", "length": "10mm", "fraction": "20%", "mass": "5g"}  # to show the way


def faults_of(said: Sequence[str]) -> Flaws:
    """Flaws from words such as "left-twist=2 deg" and "mass=10 %".

    Args:
        said: One fault each. [-]

    Returns:
        One build with all of them.

    Raises:
        ModelError: A name or a value that is not known, with what is accepted.

    Source:
        Definition.

    Example:
        >>> faults_of(["cg=10 mm", "mass=10 %"]).mass_factor
        1.1
    """
    values: dict[str, float] = {}
    for text in said:
        name, sign, value = (part.strip() for part in text.partition("="))
        if name in FAULTS and not value:
            usual = USUAL[FAULTS[name].dimension]
            raise ModelError(f'"{text}" has no value; write NAME=VALUE, as in {name}={usual}.')
        if name not in FAULTS or not sign:
            near = difflib.get_close_matches(name, FAULTS, n=1)
            hint = f' Did you mean "{near[0]}"?' if near else ""
            raise ModelError(
                f'"{text}" is no fault; write NAME=VALUE with one of: {", ".join(FAULTS)}.{hint}'
            )
        fault = FAULTS[name]
        try:
            size = parse(value, fault.dimension)
        except UnitError as error:
            raise ModelError(f"{name}: {error}") from None
        if not abs(size) <= fault.most:
            raise ModelError(
                f'"{text}" is beyond what a build gets wrong; the largest here is '
                f"{_most(fault)} either way."
            )
        base = float(getattr(NO_FLAWS, fault.field))
        values[fault.field] = max(base + size, 0.0) if fault.dimension == "fraction" else size
    return replace(NO_FLAWS, **values)


def _most(fault: Fault) -> str:
    from foamwright.core.units import format_value

    if fault.dimension == "fraction":
        return f"{100 * fault.most:.0f} %"
    return format_value(fault.most, fault.dimension)
