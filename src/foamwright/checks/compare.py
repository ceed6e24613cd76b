"""Two versions of a plane compared: main figures, and the findings that read otherwise."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING

from foamwright.checks.run import verdicts
from foamwright.core.errors import FoamwrightError
from foamwright.shape.planform import flat_span

if TYPE_CHECKING:
    from foamwright.core.verdicts import Check
    from foamwright.plane import Plane

NOTICED = 0.005  # difference of a margin that counts: half of what is shown


@dataclass(frozen=True, slots=True)
class Compared:
    """One figure of two planes.

    Attributes:
        name: In trade words.
        term: Word of the trade that explains it; "" for none.
        unit: SI unit of both; "%" for shares, "-" for plain numbers.
        before: Of the first plane; None when it cannot be said. [unit]
        after: Of the second plane; None when it cannot be said. [unit]
    """

    name: str
    term: str
    unit: str
    before: float | None
    after: float | None


type _Figure = tuple[str, str, str, Callable[[Plane], float]]

FIGURES: tuple[_Figure, ...] = (
    ("all-up mass", "all-up", "kg", lambda p: p.balance.all_up_mass),
    # As the halves lie flat on the bench, the figure that is typed and drawn.
    ("span", "span", "m", lambda p: flat_span(p.design)),
    ("wing area", "", "m²", lambda p: p.aero.wing_area),
    ("wing loading", "wing loading", "kg/m²", lambda p: p.balance.all_up_mass / p.aero.wing_area),
    ("balance point, from the nose", "balance point", "m", lambda p: p.balance.cg[0]),
    ("static margin", "static margin", "%", lambda p: p.aero.static_margin),
    ("stall speed", "stall", "m/s", lambda p: p.aero.stall_speed),
    ("top speed", "", "m/s", lambda p: p.flight.performance.top_speed),
    ("climb", "", "m/s", lambda p: p.flight.performance.climb_rate),
    ("flying time", "", "min", lambda p: p.flight.performance.endurance / 60.0),
    ("thrust over weight", "thrust", "-", lambda p: p.flight.performance.thrust_weight),
    ("wing holds", "load factor", "g", lambda p: p.strength.limit_load_factor),
    ("boards, laid out quickly", "nesting", "boards", lambda p: float(p.layout.boards_used)),
)


def compare_figures(before: Plane, after: Plane) -> tuple[Compared, ...]:
    """The main figures of two planes.

    Args:
        before: One plane. [-]
        after: The other. [-]

    Returns:
        Figures in the order in which a builder asks for them; those that can be said of neither are
        left out.

    Source:
        Definition.

    Example:
        >>> compare_figures(plane, plane)[0].name
        'all-up mass'
    """
    rows = [
        Compared(name, term, unit, _ask(ask, before), _ask(ask, after))
        for name, term, unit, ask in FIGURES
    ]
    return tuple(row for row in rows if row.before is not None or row.after is not None)


def _ask(ask: Callable[[Plane], float], plane: Plane) -> float | None:
    try:
        return ask(plane)
    except FoamwrightError:
        return None


def compare_checks(before: Plane, after: Plane) -> tuple[tuple[Check, Check], ...]:
    """The findings of two planes that differ in verdict or margin.

    Args:
        before: One plane. [-]
        after: The other. [-]

    Returns:
        Pairs of the same check, largest loss of margin first.

    Raises:
        FoamwrightError: One of the planes cannot be judged.

    Source:
        Definition.

    Example:
        >>> compare_checks(plane, plane)
        ()
    """
    pairs = [
        (old, new)
        for old, new in zip(verdicts(before), verdicts(after), strict=True)
        if old.verdict != new.verdict or abs(_moved(old, new)) > NOTICED
    ]
    return tuple(sorted(pairs, key=lambda pair: _moved(*pair)))


def _moved(old: Check, new: Check) -> float:
    """How much margin was gained; nothing where one of the two has none."""
    if old.margin is None or new.margin is None:
        return 0.0
    return new.margin - old.margin
