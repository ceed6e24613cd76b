"""Cautions: where the plane stands against thresholds that rules commonly use. They never fail.

The value is shown inside the band between the thresholds on either side of it. Within 5 % of a
threshold the check is close, for the scatter of a build may carry the plane across.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.judge import CLOSE, Finding, Rule
from foamwright.checks.levers import Lever, listed
from foamwright.checks.power_levers import cells_lever, diameter_lever, pitch_lever
from foamwright.checks.say import say
from foamwright.checks.shape_levers import board_mass_lever, capacity_lever

if TYPE_CHECKING:
    from foamwright.plane import Plane

MASSES = (0.1, 0.25)  # kg, thresholds in use in several countries; facts dated November 2026
SPEEDS = (19.0,)  # m/s, same
ENERGIES = (66.0, 80.0)  # J, same
DEFER = "Check your authority and club; rules change (facts dated November 2026)"


def between(value: float, thresholds: tuple[float, ...]) -> tuple[float | None, float | None]:
    """Thresholds on either side of a value.

    Args:
        value: [any]
        thresholds: Rising. [any]

    Returns:
        Largest threshold not above the value and smallest above it; None where there is none. [any]

    Source:
        Definition.

    Example:
        >>> between(0.2, (0.1, 0.25)), between(0.3, (0.1, 0.25))
        ((0.1, 0.25), (0.25, None))
    """
    below = [threshold for threshold in thresholds if threshold <= value]
    above = [threshold for threshold in thresholds if threshold > value]
    return (below[-1] if below else None), (above[0] if above else None)


def _standing(value: float, thresholds: tuple[float, ...], words: tuple[str, str, str]) -> Finding:
    """Words: what it is, the thresholds it has passed, the next one."""
    low, high = between(value, thresholds)
    what, passed, ahead = words
    over = "" if low is None else f"{_just(value / low - 1.0)}over {passed}"
    under = "" if high is None else f"{_just(1.0 - value / high)}under {ahead}"
    place = " and ".join(side for side in (over, under) if side)
    return Finding(
        value, f"{what}, {place}, where rules often change. {DEFER}.", low=low, high=high
    )


def _just(apart: float) -> str:
    return "just " if apart < CLOSE else ""


def _words(
    plane: Plane, thresholds: tuple[float, ...], value: float, *, dimension: str
) -> tuple[str, str]:
    low, high = between(value, thresholds)
    return tuple(  # type: ignore[return-value] -- always two
        "" if limit is None else _say(plane, limit, dimension) for limit in (low, high)
    )


def _say(plane: Plane, value: float, dimension: str) -> str:
    return f"{value:.0f} J" if dimension == "energy" else say(plane, value, dimension)


def _mass(plane: Plane) -> Finding:
    mass, band = plane.balance.all_up_mass, plane.balance.mass_band
    what = (
        f"Ready to fly it weighs {say(plane, mass, 'mass')} "
        f"({say(plane, band.low, 'mass')} to {say(plane, band.high, 'mass')})"
    )
    return _standing(mass, MASSES, (what, *_words(plane, MASSES, mass, dimension="mass")))


def _speed(plane: Plane) -> Finding:
    speed = plane.flight.performance.top_speed
    what = f"Its top level speed is {say(plane, speed, 'speed')}"
    return _standing(speed, SPEEDS, (what, *_words(plane, SPEEDS, speed, dimension="speed")))


def _energy(plane: Plane) -> Finding:
    energy = plane.flight.kinetic_energy
    what = f"At top level speed its energy of motion is {energy:.0f} J"
    return _standing(energy, ENERGIES, (what, *_words(plane, ENERGIES, energy, dimension="energy")))


def _mass_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    # Down across a threshold, never up: what lies above it is asked more.
    return listed(capacity_lever(plane, bigger=False), board_mass_lever(plane))


def _speed_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    del finding
    return listed(
        pitch_lever(plane, more=False),
        cells_lever(plane, more=False),
        diameter_lever(plane, bigger=False),
        capacity_lever(plane, bigger=False),
    )


REGULATION_RULES = (
    Rule(
        "rule_mass",
        "Mass against usual rule thresholds (caution)",
        "kg",
        "between the thresholds 0.1 and 0.25 kg",
        "rules in several countries, facts dated November 2026; defer to local rules",
        "whole plane",
        _mass,
        _mass_levers,
    ),
    Rule(
        "rule_speed",
        "Top speed against usual rule thresholds (caution)",
        "m/s",
        "below or above the threshold 19 m/s",
        "rules in several countries, facts dated November 2026; defer to local rules",
        "whole plane",
        _speed,
        _speed_levers,
    ),
    Rule(
        "rule_energy",
        "Energy against usual rule thresholds (caution)",
        "J",
        "between the thresholds 66 and 80 J",
        "rules in several countries, facts dated November 2026; defer to local rules",
        "whole plane",
        _energy,
        _speed_levers,
    ),
)
