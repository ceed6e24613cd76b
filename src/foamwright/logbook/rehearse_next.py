"""Whether the next version of a made-up plane still shows what the first one showed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.logbook.adjust import good_chances, questions_of
from foamwright.logbook.basis import Basis, basis_of
from foamwright.logbook.evidence import evidence_of
from foamwright.logbook.explain import symptoms_of
from foamwright.logbook.foresight import AS_DRAWN, Set
from foamwright.logbook.hidden import COLUMN
from foamwright.logbook.likelihood import shown_in
from foamwright.logbook.outcomes import answers_of, tick_chances, with_told

if TYPE_CHECKING:
    from foamwright.logbook.change import NextChange
    from foamwright.logbook.model import Log
    from foamwright.logbook.version import NextVersion
    from foamwright.plane import Plane

type Array = NDArray[np.float64]
type Random = np.random.Generator

GAUGED = np.radians(0.2)  # twist of each tip of a new wing, both within 0.5 degrees of each other
BALANCED = 0.001  # kg at a tip after hanging the plane up, one standard deviation; assumed
READ = np.radians(0.6)  # angle set back by ruler and eye, one standard deviation; assumed
# Action of the bench that sets a quantity back to what was drawn.
MEASURED = {"right_thrust": ("right_thrust",), "down_thrust": ("down_thrust",),
            "stab_incidence": ("wing_incidence", "stab_incidence")}  # fmt: skip
SHOWS = 0.5  # chance of the good answer below which a question counts as a symptom


def showing(basis: Basis, hidden: Array, *, trimmed: bool = False) -> Mapping[str, float]:
    """Chance of the good answer to every question for one plane.

    Args:
        basis: The plane as drawn. [-]
        hidden: What is really off, one row. [as hidden.py]
        trimmed: Whether it is thrown with the elevator where the flights before found it. [-]

    Returns:
        Key -> chance. [-]

    Source:
        outcomes.py.

    Example:
        >>> showing(basis_of(plane), np.zeros((1, 18)))["stall"] > 0.5
        True
    """
    shown = with_told(basis, shown_in(basis, hidden))
    carried = float(shown["trim_elevator"][0]) - basis.responses.trim_elevator.base
    state = Set(elevator=carried) if trimmed else AS_DRAWN
    found = {key: float(v[0]) for key, v in good_chances(basis, hidden, state=state).items()}
    answers = answers_of("glide")
    found["glide"] = float(tick_chances("glide", shown)[0, answers.index("as told")])
    return found


def symptoms(basis: Basis, hidden: Array) -> tuple[str, ...]:
    """Questions that a plane as drawn would answer well and this one does not.

    Args:
        basis: The plane as drawn. [-]
        hidden: What is really off, one row. [as hidden.py]

    Returns:
        Keys.

    Source:
        Definition.

    Example:
        >>> symptoms(basis_of(plane), np.zeros((1, 18)))
        ()
    """
    drawn, real = showing(basis, np.zeros_like(hidden)), showing(basis, hidden)
    return tuple(key for key in drawn if drawn[key] >= SHOWS > real[key])


def hidden_in_next(version: NextVersion, hidden: Array, generator: Random) -> Array:
    """What is off in the next version: data taken in, the wing made new, all else as it was.

    Args:
        version: The next version. [-]
        hidden: What was really off, one row. [as hidden.py]
        generator: Of random numbers. [-]

    Returns:
        One row, against the new design. [as hidden.py]

    Source:
        Definition; the fuselage, tail and gear are kept.

    Example:
        >>> hidden_in_next(version, hidden, generator)  # doctest: +SKIP
    """
    left = hidden.copy()
    old, new = version.before.design, version.after.design
    for name in ("drag", "thrust", "current"):
        ratio = getattr(new.learned, name) / getattr(old.learned, name)
        left[0, COLUMN[name]] = (1.0 + left[0, COLUMN[name]]) / ratio - 1.0
    mass = version.before.balance.all_up_mass
    left[0, COLUMN["mass"]] -= (new.learned.mass - old.learned.mass) / mass
    left[0, COLUMN["cg_aft"]] -= new.learned.cg - old.learned.cg
    if new.pilot.throw_speed is not None:
        thrown = version.before.flight.launch.throw_speed
        left[0, COLUMN["throw_speed"]] -= new.pilot.throw_speed - thrown
    for change in version.changes:
        if change.kind == "build":
            _carry_out(left, change, generator)
    return left


def _carry_out(left: Array, change: NextChange, generator: Random) -> None:
    """What a builder does on the bench or at the field, as well as it is done there."""
    if change.action == "untwist":
        for name in ("twist_right", "twist_left"):
            left[0, COLUMN[name]] = GAUGED * generator.standard_normal()
    elif change.action == "tip_mass":
        left[0, COLUMN["tip_mass"]] = BALANCED * generator.standard_normal()
    elif change.action == "throw":
        left[0, COLUMN["throw_speed"]] += change.amount
    elif change.action == "throttle":
        left[0, COLUMN["thrust"]] = (1.0 + left[0, COLUMN["thrust"]]) * (1.0 + change.amount) - 1.0
    elif change.action in MEASURED:
        for name in MEASURED[change.action]:
            left[0, COLUMN[name]] = READ * generator.standard_normal()


def as_it_is(version: NextVersion, hidden: Array) -> tuple[Plane, Array]:
    """The next version with its angles as they really stand, and what is off besides.

    An angle drawn new and an old error of it that cancel are asked of the simulation together,
    not as two large changes.

    Args:
        version: The next version. [-]
        hidden: What is off against its design, one row. [as hidden.py]

    Returns:
        Plane and one row. [as hidden.py]

    Source:
        Definition.

    Example:
        >>> as_it_is(version, hidden)  # doctest: +SKIP
    """
    design, rest = version.after.design, hidden.copy()
    drawn = {
        "motor.right_thrust": ("right_thrust", design.motor.right_thrust),
        "motor.down_thrust": ("down_thrust", design.motor.down_thrust),
        "stab.incidence": ("stab_incidence", design.stab.incidence),
    }
    changed = {key for change in version.changes for key in change.values} & drawn.keys()
    values = {key: drawn[key][1] + float(hidden[0, COLUMN[drawn[key][0]]]) for key in changed}
    for key in changed:
        rest[0, COLUMN[drawn[key][0]]] = 0.0
    thrown = version.after.flight.launch.throw_speed
    values["pilot.throw_speed"] = max(thrown + float(hidden[0, COLUMN["throw_speed"]]), 1.0)
    rest[0, COLUMN["throw_speed"]] = 0.0
    return version.after.with_values(values), rest


def symptoms_left(
    before: Basis, version: NextVersion, hidden: Array, generator: Random, *, log: Log
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Symptoms of a plane, and those that its next version still has.

    Args:
        before: The plane as drawn. [-]
        version: The next version. [-]
        hidden: What was really off, one row. [as hidden.py]
        generator: Of random numbers. [-]
        log: What the pilot wrote down of the plane. [-]

    Returns:
        Keys of symptoms that were there and written down, and of these the ones left.

    Source:
        Definition.

    Example:
        >>> symptoms_left(before, version, hidden, generator, log=log)  # doctest: +SKIP
    """
    noted = {
        key
        for one in symptoms_of(evidence_of(version.before, log, before))
        for key in questions_of(one.key)
    }
    shown = tuple(key for key in symptoms(before, hidden) if key in noted)
    left = hidden_in_next(version, hidden, generator)
    real, rest = as_it_is(version, left)
    now = showing(basis_of(real), rest, trimmed=True)
    return shown, tuple(key for key in shown if now[key] < SHOWS)
