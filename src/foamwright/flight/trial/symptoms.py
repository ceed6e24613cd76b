"""Flaws on purpose: which fault of a build shows which symptom, flown and compared."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, replace

import numpy as np

from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws
from foamwright.flight.trial.card import told
from foamwright.flight.trial.flown import Flown
from foamwright.flight.trial.model import TestFlight

DEGREE = np.pi / 180.0


@dataclass(frozen=True, slots=True)
class Symptom:
    """One row of the table that builders pass on.

    Attributes:
        number: Of the row.
        title: What is seen.
        flaw: In words.
        flaws: The fault, for a plane of a chord [m] and a mass [kg].
        ticks: Answers that show it; any of them.
        moves: Where no tick has to change: (figure as "manoeuvre: title", sign of the change).
    """

    number: int
    title: str
    flaw: str
    flaws: Callable[[float, float], Flaws]
    ticks: Mapping[str, str]
    moves: tuple[tuple[str, float], ...] = ()


SYMPTOMS: tuple[Symptom, ...] = (
    Symptom(1, "sinks nose-level into the grass", "40 % heavier, a quarter of the thrust",
            lambda c, m: Flaws(mass_factor=1.4, motor_factor=0.25), {"launch": "sank"}),
    Symptom(2, "noses straight down at once", "elevator 12° down",
            lambda c, m: Flaws(elevator_neutral=12 * DEGREE), {"launch": "nosed down"}),
    Symptom(3, "pitches up, stalls, drops", "CG a third of the chord aft",
            lambda c, m: Flaws(cg_shift_aft=0.33 * c), {"launch": "pitched up"}),
    Symptom(5, "rolls the same way power on and off", "left panel warped 2° leading edge up",
            lambda c, m: Flaws(left_twist=2 * DEGREE, right_twist=-1 * DEGREE),
            {"roll_slow": "right", "roll_fast": "right", "roll_glide": "right"}),
    Symptom(6, "rolls when slow only", "a heavy right tip",
            lambda c, m: Flaws(right_tip_mass=0.03 * m), {"roll_slow": "right"},
            (("let go: slow: rolls right", 1.0),)),
    Symptom(7, "turns left only with power", "thrust line 5° left of drawn",
            lambda c, m: Flaws(thrust_right_error=-5 * DEGREE), {"yaw_power": "left"}),
    Symptom(8, "climbs hard with throttle", "thrust line 5° up of drawn",
            lambda c, m: Flaws(thrust_down_error=-5 * DEGREE), {"power_on": "climbs hard"},
            (("power on: nose rises", 1.0), ("power off: height lost until it glides", 1.0))),
    Symptom(9, "pulls out of a dive by itself", "CG forward and up-trim",
            lambda c, m: Flaws(cg_shift_aft=-0.15 * c), {"dive_test": "pulls out hard"},
            (("dive: path rises within 2 s", 1.0),)),
    Symptom(10, "drops its nose with throttle", "thrust line 12° down of drawn",
            lambda c, m: Flaws(thrust_down_error=12 * DEGREE), {"power_on": "dives"},
            (("power on: nose rises", -1.0),)),
    Symptom(11, "tucks under in a dive", "CG a fifth of the chord aft",
            lambda c, m: Flaws(cg_shift_aft=0.20 * c), {"dive_test": "tucks under"}),
    Symptom(13, "slow waves", "clean: four-tenths of the drag",
            lambda c, m: Flaws(drag_factor=0.4), {"waves": "goes in slow waves"},
            (("waves: left after one wave", 1.0),)),
    Symptom(14, "twitchy pitch", "CG a tenth of the chord aft",
            lambda c, m: Flaws(cg_shift_aft=0.10 * c), {"pitch_feel": "twitchy"}),
    Symptom(15, "soggy pitch, cannot flare", "CG a fifth of the chord forward",
            lambda c, m: Flaws(cg_shift_aft=-0.20 * c), {"pitch_feel": "soggy"},
            (("landing: sink at touch-down", 1.0),)),
    Symptom(16, "a wing drops in the stall", "left panel warped 4° leading edge up, CG aft",
            lambda c, m: Flaws(left_twist=4 * DEGREE, cg_shift_aft=0.06 * c),
            {"stall": "drops left"}, (("stall: wing drops right", -1.0),)),
    Symptom(29, "climbs poorly", "a fifth of the thrust",
            lambda c, m: Flaws(motor_factor=0.2), {"climb": "poor"},
            (("slow: best climb at full power", -1.0),)),
    Symptom(32, "glides like a brick", "twice the drag",
            lambda c, m: Flaws(drag_factor=2.0), {"glide": "like a brick"}),
)  # fmt: skip


def side_by_side(chord: float, mass: float) -> Flaws:
    """All faults of the table as builds side by side, the plane without flaw first.

    Args:
        chord: Mean. [m]
        mass: All-up. [kg]

    Returns:
        One more build than there are symptoms.

    Source:
        Definition.

    Example:
        >>> side_by_side(0.2, 0.6).count == len(SYMPTOMS) + 1
        True
    """
    each = [NO_FLAWS, *(row.flaws(chord, mass) for row in SYMPTOMS)]
    columns = {
        field.name: np.array([float(getattr(one, field.name)) for one in each])
        for field in fields(Flaws)
    }
    return replace(NO_FLAWS, **columns)


@dataclass(frozen=True, slots=True)
class Shown:
    """What one fault changed.

    Attributes:
        symptom: The row.
        changed: Question -> answer, where it differs from the plane without flaw.
        ticked: Whether every answer that the row names was given.
        moved: Whether every figure that the row names moved the way it says.
    """

    symptom: Symptom
    changed: Mapping[str, str]
    ticked: bool
    moved: bool


def shown_by(flown: Flown) -> tuple[Shown, ...]:
    """Compare every fault of side_by_side with the plane without flaw.

    Args:
        flown: With the builds of side_by_side. [-]

    Returns:
        One row a symptom.

    Source:
        The simulation against the table; common practice, no source.

    Example:
        >>> shown_by(flown)  # doctest: +SKIP
    """
    base = told(flown, 0)
    usual = _figures(base)
    rows: list[Shown] = []
    for build, symptom in enumerate(SYMPTOMS, 1):
        card = told(flown, build)
        figures = _figures(card)
        changed = {key: said for key, said in card.ticks.items() if said != base.ticks.get(key)}
        moved = True
        for name, sign in symptom.moves:
            before, after = usual.get(name), figures.get(name)
            moved &= before is not None and after is not None and sign * (after - before) > 0.0
        ticked = all(card.ticks.get(key) == said for key, said in symptom.ticks.items())
        rows.append(Shown(symptom, changed, ticked, moved))
    return tuple(rows)


def _figures(card: TestFlight) -> dict[str, float | None]:
    return {f"{row.name}: {f.title}": f.value for row in card.manoeuvres for f in row.figures}
