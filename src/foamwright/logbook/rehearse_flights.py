"""Builders with one fault of the size that builders meet, seen through whole flights.

Nothing of foresight is used: every build flies the whole test card in the flight simulation, side
by side, and the pilot writes down ticks, trims, the glide and the weight.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import TYPE_CHECKING

import numpy as np

from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws
from foamwright.flight.simulation.hands import hands_of
from foamwright.flight.simulation.thrower import thrower_for
from foamwright.flight.trial.card import told
from foamwright.flight.trial.flown import Flown, fly_card
from foamwright.logbook.explain import GOOD
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.model import Log
from foamwright.logbook.nudges import FLAWED
from foamwright.logbook.rehearse_next import hidden_in_next
from foamwright.logbook.store import entry_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from foamwright.logbook.version import NextVersion
    from foamwright.plane import Plane

type Array = NDArray[np.float64]
type Random = np.random.Generator

# Sizes of single faults as builders meet them; common practice, no source.
TWISTED = (2.0, 3.0)  # deg between the panels
TIP = (0.025, 0.04)  # of the mass, at one tip
LINE = (4.0, 5.0)  # deg of thrust line
CG = (0.09, 0.12)  # of the chord
SET = (1.5, 2.5)  # deg of the wing against the stab
DRAG, MASS, THRUST = (1.5, 1.7), (1.2, 1.3), (0.55, 0.65)
KINDS = ("twist", "tip_mass", "right_thrust", "down_thrust", "cg", "incidence", "drag", "mass",
         "thrust")  # fmt: skip
GLIDES_FROM = 30.0  # m


@dataclass(frozen=True, slots=True)
class FlownCase:
    """One builder.

    Attributes:
        cause: What is off, a name of causes.py.
        flaws: Fields of Flaws and their values. [as Flaws]
        log: What the pilot wrote down.
    """

    cause: str
    flaws: Mapping[str, float]
    log: Log


def fault_flaws(plane: Plane, cause: str, generator: Random) -> dict[str, float]:
    """One fault of builders' size, either side.

    Args:
        plane: As drawn. [-]
        cause: A name of KINDS. [-]
        generator: Of random numbers. [-]

    Returns:
        Fields of Flaws. [as Flaws]

    Source:
        Common practice, no source.

    Example:
        >>> list(fault_flaws(plane, "drag", np.random.default_rng(1)))
        ['drag_factor']
    """
    side = float(generator.choice([-1.0, 1.0]))

    def size(band: tuple[float, float]) -> float:
        return float(generator.uniform(*band))

    if cause == "twist":
        whole, share = side * np.radians(size(TWISTED)), size((0.0, 1.0))
        return {"right_twist": whole * share, "left_twist": -whole * (1.0 - share)}
    if cause == "tip_mass":
        tip = "right_tip_mass" if side > 0.0 else "left_tip_mass"
        return {tip: size(TIP) * plane.balance.all_up_mass}
    signed = {
        "right_thrust": ("thrust_right_error", np.radians(size(LINE))),
        "down_thrust": ("thrust_down_error", np.radians(size(LINE))),
        "cg": ("cg_shift_aft", size(CG) * plane.aero.mean_chord),
        "incidence": ("incidence_error", np.radians(size(SET))),
    }
    if cause in signed:
        name, amount = signed[cause]
        return {name: side * float(amount)}
    return {
        "drag": {"drag_factor": size(DRAG)},
        "mass": {"mass_factor": size(MASS)},
        "thrust": {"motor_factor": size(THRUST)},
    }[cause]


def flown_cases(plane: Plane, each: int, generator: Random) -> tuple[FlownCase, ...]:
    """Builders with one fault each, all flown side by side.

    Args:
        plane: As drawn. [-]
        each: Builders of each of KINDS. [-]
        generator: Of random numbers. [-]

    Returns:
        Cases.

    Valid:
        Readings are exact, rounded as they are written down; one pilot, no gusts.

    Source:
        flight/trial.

    Example:
        >>> flown_cases(plane, 3, np.random.default_rng(1))  # doctest: +SKIP
    """
    faults = [(cause, fault_flaws(plane, cause, generator)) for _ in range(each) for cause in KINDS]
    columns = {
        field.name: np.array(
            [off.get(field.name, float(getattr(NO_FLAWS, field.name))) for _, off in faults]
        )
        for field in fields(Flaws)
    }
    pilot, mass = plane.design.pilot, plane.balance.all_up_mass
    thrower = thrower_for(mass, speed=pilot.throw_speed, height=pilot.throw_height)
    flown = fly_card(
        plane.craft, plane.flawed(Flaws(**columns)), thrower, hands=hands_of(pilot.level)
    )
    return tuple(
        FlownCase(cause, off, _notes(plane, flown, row, off))
        for row, (cause, off) in enumerate(faults)
    )


def flown_symptoms(plane: Plane, log: Log) -> dict[str, str]:
    """What the pilot ticked that is neither good nor what the plane as drawn shows.

    Args:
        plane: As drawn; flown once without a fault. [-]
        log: Of a case. [-]

    Returns:
        Question -> answer.

    Source:
        flight/trial.

    Example:
        >>> flown_symptoms(plane, case.log)  # doctest: +SKIP
    """
    drawn = _ticks(plane, NO_FLAWS)
    return {
        key: said
        for key, said in log.of("flight")[0].said.items()
        if key in GOOD and said not in (GOOD[key], drawn.get(key))
    }


def flown_left(
    version: NextVersion, case: FlownCase, generator: Random
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Symptoms of a flown case, and those that its next version, flown whole, still shows.

    Args:
        version: The next version. [-]
        case: What was off, and the log that the version rests on. [-]
        generator: Of random numbers. [-]

    Returns:
        Questions ticked badly before, and of these the ones ticked the same again.

    Source:
        flight/trial; what is kept and what is made new as in rehearse_next.py.

    Example:
        >>> flown_left(version, case, generator)  # doctest: +SKIP
    """
    before = flown_symptoms(version.before, case.log)
    if not before:
        return (), ()
    left = hidden_in_next(version, hidden_of(case.flaws), generator)
    throw = version.after.flight.launch.throw_speed + float(left[0, COLUMN["throw_speed"]])
    now = _ticks(version.after, flaws_from(left), throw=throw)
    return tuple(before), tuple(key for key, said in before.items() if now.get(key) == said)


def hidden_of(flaws: Mapping[str, float]) -> Array:
    """Flaws of the simulation as a guess of hidden.py.

    Args:
        flaws: Field and value. [as Flaws]

    Returns:
        One row. [as hidden.py]

    Source:
        nudges.py, the other way round.

    Example:
        >>> float(hidden_of({"drag_factor": 1.5})[0, COLUMN["drag"]])
        0.5
    """
    row = np.zeros((1, len(COLUMN)))
    for name, (flaw, sign) in FLAWED.items():
        if flaw in flaws and sign > 0.0 and not name.endswith("_model"):
            row[0, COLUMN[name]] = flaws[flaw] - float(getattr(NO_FLAWS, flaw))
    row[0, COLUMN["tip_mass"]] = flaws.get("right_tip_mass", 0.0) - flaws.get("left_tip_mass", 0.0)
    return row


def flaws_from(hidden: Array) -> Flaws:
    """A guess of hidden.py as flaws of the simulation.

    Args:
        hidden: One row. [as hidden.py]

    Returns:
        One build.

    Source:
        nudges.py.

    Example:
        >>> float(flaws_from(hidden_of({"drag_factor": 1.5})).drag_factor)
        1.5
    """
    values: dict[str, float] = {}
    for name, (flaw, sign) in FLAWED.items():
        there = values.get(flaw, float(getattr(NO_FLAWS, flaw)))
        values[flaw] = there + sign * float(hidden[0, COLUMN[name]])
    tip = float(hidden[0, COLUMN["tip_mass"]])
    values["right_tip_mass" if tip > 0.0 else "left_tip_mass"] = abs(tip)
    return Flaws(**values)


def _ticks(plane: Plane, flaws: Flaws, *, throw: float | None = None) -> dict[str, str]:
    """The test card of one build."""
    pilot, mass = plane.design.pilot, plane.balance.all_up_mass
    speed = pilot.throw_speed if throw is None else throw
    thrower = thrower_for(mass, speed=speed, height=pilot.throw_height)
    flown = fly_card(plane.craft, plane.flawed(flaws), thrower, hands=hands_of(pilot.level))
    return dict(told(flown, 0).ticks)


def _notes(plane: Plane, flown: Flown, row: int, off: Mapping[str, float]) -> Log:
    """Two flights, the second with its trims and a glide, and the weight."""
    mass = plane.balance.all_up_mass * off.get("mass_factor", 1.0)
    mass += off.get("left_tip_mass", 0.0) + off.get("right_tip_mass", 0.0)
    distance = GLIDES_FROM * float(flown.steady.glide[row])
    second = {**_trims(plane, flown, row), "minutes": "6", "glide_height": f"{GLIDES_FROM:.0f} m",
              "glide_distance": f"{distance:.0f} m"}  # fmt: skip
    rows: tuple[tuple[str, dict[str, str]], ...] = (
        ("flight", dict(told(flown, row).ticks)),
        ("flight", second),
        ("weighed", {"what": "all-up", "mass": f"{1000.0 * mass:.0f} g"}),
    )
    return Log(
        tuple(entry_of(kind, said, number=place) for place, (kind, said) in enumerate(rows, 1))
    )


def _trims(plane: Plane, flown: Flown, row: int) -> dict[str, str]:
    """As the surfaces stand in level flight; elevator down from faired."""
    cruise = flown.steady.trims[1]
    if not cruise.found[row]:
        return {}
    rolls = bool(flown.setting.rolls)
    turned = (cruise.aileron if rolls else cruise.rudder)[row]
    return {
        "trim_elevator": f"{np.degrees(plane.craft.elevator_trim - cruise.elevator[row]):.1f} deg",
        "trim_aileron" if rolls else "trim_rudder": f"{np.degrees(turned):.1f} deg",
    }
