"""A builder and a pilot made up: hidden faults drawn, and what such a pilot would write down."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook import evidence
from foamwright.logbook.basis import Basis
from foamwright.logbook.causes import CAUSES, PLACE, odds, possible, widths
from foamwright.logbook.evidence import ANGLES
from foamwright.logbook.foresight import AS_DRAWN, Set
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.likelihood import shown_in
from foamwright.logbook.model import Log
from foamwright.logbook.outcomes import SCALES, SLIP, SLIP_WIDTH, answers_of, tick_chances
from foamwright.logbook.store import entry_of

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]
type Random = np.random.Generator

FLIES_AGAIN = 0.4  # of builders write down a second flight; assumed
WRITES = {"weighed": 0.7, "cg": 0.7, "twist": 0.3, "angles": 0.2, "trims": 0.5, "charge": 0.6,
          "glide": 0.3, "throttle": 0.3, "fly-by": 0.15}  # fmt: skip
TICKS = 0.8  # of the questions are ticked; assumed
FAULT = (1.0, 1.3)  # of the size of causes.py: how far off a single fault is; assumed


def draw_builder(generator: Random, basis: Basis, spreads: Array) -> tuple[Array, str]:
    """Hidden quantities of one builder's plane, drawn from what is usual.

    Args:
        generator: Of random numbers. [-]
        basis: The plane as drawn. [-]
        spreads: Of the quantities. [as each]

    Returns:
        One guess as a row, and the name of its cause. [as hidden.py]

    Source:
        The prior of infer.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> draw_builder(np.random.default_rng(0), basis_of(plane), np.full(18, 0.01))[0].shape
        (1, 18)
    """
    place = int(generator.choice(len(CAUSES), p=odds()))
    wide = widths(basis, spreads)[place]
    while True:
        hidden = (generator.standard_normal(len(wide)) * wide * spreads)[None, :]
        if possible(hidden)[0]:
            return hidden, CAUSES[place].name


def draw_fault(
    generator: Random,
    basis: Basis,
    spreads: Array,
    cause: str,
    *,
    sizes: tuple[float, float] = FAULT,
) -> Array:
    """A plane with one fault of builders' size and nothing else off.

    Args:
        generator: Of random numbers. [-]
        basis: The plane as drawn. [-]
        spreads: Of the quantities. [as each]
        cause: Its name. [-]
        sizes: Least and most of it, in standard deviations of causes.py. [-]

    Returns:
        One guess as a row. [as hidden.py]

    Source:
        FAULT, assumed.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> off = draw_fault(np.random.default_rng(0), basis_of(plane), np.ones(18), "drag")
        >>> float((off != 0).sum())
        1.0
    """
    hidden = np.zeros((1, len(spreads)))
    wide, names = widths(basis, spreads)[PLACE[cause]], CAUSES[PLACE[cause]].wide
    size = generator.uniform(*sizes) * generator.choice([-1.0, 1.0]) / np.sqrt(len(names))
    for sign, name in zip((1.0, -1.0), names, strict=False):
        column = COLUMN[name]
        hidden[0, column] = sign * size * wide[column] * spreads[column]
    hidden[0, COLUMN["drag"]] = max(hidden[0, COLUMN["drag"]], -0.4)
    return hidden


def notes_of(
    plane: Plane, basis: Basis, hidden: Array, generator: Random, *, everything: bool = False
) -> Log:
    """The logbook that a builder with this plane would fill: words, rounded as people round.

    Args:
        plane: As drawn. [-]
        basis: Its figures. [-]
        hidden: What is really off, one row. [as hidden.py]
        generator: Of random numbers. [-]
        everything: Whether all is written down; otherwise each thing only sometimes. [-]

    Returns:
        The log.

    Source:
        outcomes.py and evidence.py, the other way round.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> log = notes_of(plane, basis_of(plane), np.zeros((1, 18)), np.random.default_rng(1))
        >>> log.of("flight")[0].kind
        'flight'
    """

    def writes(what: str) -> bool:
        return everything or bool(generator.random() < WRITES[what])

    rows: list[tuple[str, dict[str, str]]] = []
    shown = shown_in(basis, hidden)
    rows += _weigh_in(plane, basis, shown, generator, writes)
    flights = 2 if everything or generator.random() < FLIES_AGAIN else 1
    for number in range(flights):
        rows.append(("flight", _flight(basis, hidden, generator, first=number == 0,
                                       everything=everything, writes=writes)))  # fmt: skip
    if writes("fly-by"):
        speed = float(np.exp(_read(shown["top_speed"], evidence.PASS_READING, generator)))
        rows.append(("heard", {"airspeed": f"{speed:.1f} m/s", "spread": f"{0.02 * speed:.2f} m/s",
                               "throttle": "100 %"}))  # fmt: skip
    return Log(
        tuple(entry_of(kind, said, number=place) for place, (kind, said) in enumerate(rows, 1))
    )


def _read(shown: Array, noise: float, generator: Random) -> float:
    wide = SLIP_WIDTH if generator.random() < SLIP else 1.0
    return float(shown[0]) + wide * noise * float(generator.standard_normal())


def _weigh_in(
    plane: Plane,
    basis: Basis,
    shown: Mapping[str, Array],
    generator: Random,
    writes: object,
) -> list[tuple[str, dict[str, str]]]:
    assert callable(writes)  # noqa: S101 - a closure of notes_of
    rows: list[tuple[str, dict[str, str]]] = []
    if writes("weighed"):
        ratio = _read(shown["mass"], evidence.SCALE_READING / basis.mass, generator)
        rows.append(("weighed", {"what": "all-up",
                                 "mass": f"{1000 * basis.mass * (1 + ratio):.0f} g"}))  # fmt: skip
    if writes("cg"):
        place = basis.cg_x + _read(shown["cg_aft"], evidence.CG_READING, generator)
        rows.append(("measured", {"what": "cg", "value": f"{1000 * place:.0f} mm"}))
    for what, (name, _) in ANGLES.items():
        if writes("twist" if what.startswith("twist") else "angles"):
            off = _read(shown[name], evidence.ANGLE_READING, generator)
            value = np.degrees(off + evidence.drawn_angle(plane, what))
            rows.append(("measured", {"what": what, "value": f"{value:.1f} deg"}))
    return rows


def _flight(
    basis: Basis,
    hidden: Array,
    generator: Random,
    *,
    first: bool,
    everything: bool,
    writes: object,
) -> dict[str, str]:
    assert callable(writes)  # noqa: S101 - a closure of notes_of
    free = shown_in(basis, hidden)
    said: dict[str, str] = {}
    trims = AS_DRAWN
    roll = "aileron" if basis.aero.derivatives.roll_aileron != 0.0 else "rudder"
    if not first and writes("trims"):
        angle = np.degrees(_read(free[f"trim_{roll}"], evidence.TRIM_READING, generator))
        said[f"trim_{roll}"] = f"{angle:.1f} deg"
        pitch = np.degrees(_read(free["trim_elevator"], evidence.TRIM_READING, generator))
        said["trim_elevator"] = f"{pitch:.1f} deg"
        trims = Set(**{roll: float(np.radians(float(f"{angle:.1f}")))})
    # Some tick what they saw before they trimmed it out.
    shown = shown_in(basis, hidden, trims if generator.random() < 0.5 else AS_DRAWN)
    thrown = shown_in(basis, hidden)
    for key in ("launch", *SCALES):
        if everything or generator.random() < TICKS:
            chances = tick_chances(key, thrown if key == "launch" else shown)[0]
            said[key] = answers_of(key)[int(generator.choice(len(chances), p=chances))]
    return {**said, **_figures(free, generator, writes)}


def _figures(free: Mapping[str, Array], generator: Random, writes: object) -> dict[str, str]:
    assert callable(writes)  # noqa: S101 - a closure of notes_of
    said: dict[str, str] = {}
    if writes("charge"):
        current = float(np.exp(_read(free["current"], evidence.CURRENT_READING, generator)))
        said |= {"minutes": "6", "back": f"{current * 100.0:.0f} mAh"}
    if writes("glide"):
        ratio = float(np.exp(_read(free["glide"], evidence.GLIDE_READING, generator)))
        said |= {"glide_height": "30 m", "glide_distance": f"{30 * ratio:.0f} m"}
    if writes("throttle"):
        stick = _read(free["throttle"], evidence.STICK_READING, generator)
        said["throttle"] = f"{100 * min(max(stick, 0.02), 1.0):.0f} %"
    return said
