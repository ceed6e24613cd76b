"""What heat leaves of the glued joints: a curve for each over temperature."""

from dataclasses import replace

from foamwright.design.model import Design
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock
from foamwright.strength.cases import Figures, one_at_a_time
from foamwright.strength.failures import collect_failures
from foamwright.strength.model import LoadCase
from foamwright.strength.named import figures_of

GLUED = ("centre_joint", "panel_joint", "splice_joint", "attachment", "firewall_glue")


def over_temperature(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    loads: LoadCase,
    temperatures: tuple[float, ...],
) -> dict[str, tuple[float, ...]]:
    """Typical load factor, or strength over load, of every glued joint at each temperature.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        loads: Numbers of the plane. [-]
        temperatures: Of the glue. [K]

    Returns:
        Failure id -> one value a temperature. [-]

    Valid:
        Short loads; under a lasting load a warm glue creeps long before. Foam is good to 70 °C.

    Source:
        heat_factor; shape of the curve assumed.

    Example:
        >>> [round(x, 0) for x in over_temperature(design, airframe, stock, loads=l,
        ...     temperatures=(296.15, 338.15))["centre_joint"]]
        [20.0, 13.0]
    """
    bands = one_at_a_time(figures_of(design, stock))
    typical = Figures({name: column[:1] for name, column in bands.values.items()}, 1, bands.missing)
    curves: dict[str, list[float]] = {}
    for temperature in temperatures:
        warm = replace(loads, temperature=temperature)
        found = collect_failures(design, airframe, stock, figures=typical, loads=warm).found
        for each in found:
            if each.id.startswith(GLUED):
                curves.setdefault(each.id, []).append(float(each.values[0]))
    return {name: tuple(values) for name, values in curves.items()}
