"""Propellers as the builder names them."""

from dataclasses import dataclass

from foamwright.core.errors import DesignError
from foamwright.core.nearest import nearest_names
from foamwright.core.unit_table import INCH
from foamwright.flight.candidates import LABEL
from foamwright.power.propeller import KINDS
from foamwright.stock.propellers import propellers_in_stock


@dataclass(frozen=True, slots=True)
class BenchPropeller:
    """A propeller on the bench.

    Attributes:
        name: As the builder has it.
        kind: Blade family.
        diameter: [m]
        pitch: [m]
        blades: [-]
    """

    name: str
    kind: str
    diameter: float
    pitch: float
    blades: int


def propeller_named(name: str) -> BenchPropeller:
    """A propeller by its stock name or by what is printed on it.

    Args:
        name: Such as "electric 9x6" or "slow flight 8x4.5x3". [-]

    Returns:
        The propeller. [-]

    Raises:
        DesignError: It is neither in stock nor read as kind and size.

    Source:
        Definition.

    Example:
        >>> round(propeller_named("electric 9x6").pitch, 4)
        0.1524
    """
    plain = " ".join(name.lower().split())
    for entry in propellers_in_stock():
        if entry.name == plain:
            return BenchPropeller(plain, entry.kind, entry.diameter, entry.pitch, entry.blades)
    found = LABEL.fullmatch(name)
    kind = found["kind"].lower().strip() if found else ""
    if found is None or kind not in KINDS:
        near = nearest_names(plain, [entry.name for entry in propellers_in_stock()], cutoff=0.3)
        listed = ", ".join(f'"{entry}"' for entry in near)
        words = 'it must be in stock, or kind and size in inches such as "electric 9x6"'
        fix = f"Nearest in stock: {listed}." if listed else ""
        raise DesignError("bench.propellers", f'"{name}"', words, fix)
    diameter, pitch = float(found["diameter"]) * INCH, float(found["pitch"]) * INCH
    return BenchPropeller(plain, kind, diameter, pitch, int(found["blades"] or 2))
