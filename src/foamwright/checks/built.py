"""Checks that are computed in every build and not along a line."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.checks.judge import Rule, finding_of
from foamwright.checks.mass import CUBE_LOADING, FIRST_MARGIN, MASS_RULES, WING_LOADING
from foamwright.checks.power import POWER_RULES
from foamwright.checks.side_loads import FLUTTER
from foamwright.checks.stability import STABILITY_RULES
from foamwright.checks.stall import STALL_LIMIT
from foamwright.checks.strength import family_of
from foamwright.core.air import GRAVITY
from foamwright.power.circuit import circuit_of
from foamwright.power.operate import map_of
from foamwright.strength.analyse import flown_cap
from foamwright.strength.cases import TENTH
from foamwright.strength.loads import NEGATIVE_SHARE, gust_load_factor
from foamwright.strength.sample import sample_failures

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

CHECK_OF_FAMILY = {
    "wing": "wing_load",
    "joint": "joint_load",
    "attachment": "attachment_load",
    "firewall": "firewall",
    "tail": "tail_strength",
    "pushrod": "pushrods",
    "flutter": "flutter",
    "negative": "negative_load",
    "landing": "landing_load",
    "launch": "launch_grip",
    "fixing": "fixings",
}
IN_LOAD_FACTORS = ("wing", "joint", "attachment")


@dataclass(frozen=True, slots=True)
class Doubts:
    """What was drawn, and what follows from it at once.

    Attributes:
        rows: Name of a doubted figure -> its row of draws.
        draws: Standard normal (figures, builds). [-]
        masses: All-up mass, its moment about the nose, wing mass and pack mass of each build.
            [kg, kg m]
        typical: The same four of the typical plane. [kg, kg m]
        thrust: Static, of each build. [N]
        current: At full throttle, of each build. [A]
        open: Name -> whether the figure has a band at all.
    """

    rows: Mapping[str, int]
    draws: Array
    masses: Array
    typical: Array
    thrust: Array
    current: Array
    open: Mapping[str, bool]

    def draw(self, name: str) -> Array:
        """Draws [-] of one figure."""
        return self.draws[self.rows[name]]

    def chosen(self, prefix: str) -> Array:
        """Draws [-] of all figures of one kind, in their order."""
        rows = [row for name, row in self.rows.items() if name.startswith(prefix)]
        return self.draws[rows]


@dataclass(frozen=True, slots=True)
class Flown:
    """What the linearised answers give to those computed in full.

    Attributes:
        top_speed: Level, of each build. [m/s]
        forward: Foremost CG that full up elevator holds at the stall, of each build. [m]
    """

    top_speed: Array
    forward: Array


def power_of_builds(plane: Plane, draws: Mapping[str, Array]) -> tuple[Array, Array]:
    """Static thrust and current at full throttle of every build.

    Args:
        plane: The plane. [-]
        draws: Name of a constant of the power train -> draws. [-]

    Returns:
        Thrust [N] and current [A].

    Source:
        [DRELA-MOTOR], [UIUC-PROP], solved for all builds at once.

    Example:
        >>> power_of_builds(plane, draws)[0].mean()  # doctest: +SKIP
        7.9
    """
    train = plane.train
    circuit = circuit_of(train, plane.air.density, depth_of_discharge=0.0)
    bands = {
        "kv": train.motor.kv,
        "resistance": train.motor.resistance,
        "no_load_current": train.motor.no_load_current,
        "pack_resistance": train.pack.resistance,
    }
    values: dict[str, Array] = {}
    for name, band in bands.items():
        step = draws[name] / TENTH
        width = np.where(step < 0.0, band.typical - band.low, band.high - band.typical)
        values[name] = np.maximum(band.typical + step * width, 0.05 * band.typical)
    parameters = np.tile(circuit.parameters, (draws["kv"].size, 1))
    parameters[:, 0] += draws["thrust"] * train.propeller.thrust_spread
    parameters[:, 6] += draws["power"] * train.propeller.power_spread
    many = replace(
        circuit,
        parameters=parameters,
        kv=values["kv"],
        resistance=values["resistance"] + train.controller_resistance,
        no_load_current=values["no_load_current"],
        pack_resistance=values["pack_resistance"],
    )
    still = np.zeros(draws["kv"].size)
    state = map_of(many, still, still + 1.0, trusted=train.propeller.in_fit_range)
    return state.thrust, state.current


def full_margins(plane: Plane, doubts: Doubts, flown: Flown) -> dict[str, Array]:
    """Margin of every check that is computed in each build.

    Args:
        plane: The plane. [-]
        doubts: What was drawn. [-]
        flown: Linearised answers that these rest on. [-]

    Returns:
        Check id -> margin, one a build. [-]

    Source:
        The formulas of the checks themselves.

    Example:
        >>> sorted(full_margins(plane, doubts, flown))[0]  # doctest: +SKIP
        'all_up_mass'
    """
    aero, level = plane.aero, plane.design.pilot.level
    mass, moment = doubts.masses[0], doubts.masses[1]
    lift = 1.0 + doubts.draw("model.lift_max") * aero.uncertainty["lift_max"] / aero.lift_max
    stall = aero.stall_speed * np.sqrt(mass / doubts.typical[0] / np.maximum(lift, 0.2))
    found = {
        "all_up_mass": 1.0 - (stall / STALL_LIMIT[level]) ** 2,
        "wing_loading": 1.0 - mass / aero.wing_area / WING_LOADING[level],
        "cube_loading": 1.0 - mass / aero.wing_area**1.5 / CUBE_LOADING[level],
        "stall_speed": 1.0 - stall / STALL_LIMIT[level],
    }
    found |= _balance(plane, doubts, moment / mass, flown.forward)
    found |= _power(plane, doubts)
    return found | _strength(plane, doubts, stall, flown.top_speed)


def _rule(rules: tuple[Rule, ...], name: str) -> Rule:
    return next(rule for rule in rules if rule.id == name)


def _between(value: Array, low: Array | float, high: Array | float) -> Array:
    width = np.maximum(np.asarray(high) - low, 1e-9)
    return np.minimum(value - low, high - value) / width


def _balance(plane: Plane, doubts: Doubts, cg: Array, forward: Array) -> dict[str, Array]:
    aero, balance = plane.aero, plane.balance
    neutral = aero.neutral_point_x + (
        doubts.draw("model.neutral_point_x") * aero.uncertainty["neutral_point_x"]
    )
    chord = aero.mean_chord
    aft = neutral - (aero.neutral_point_x - aero.cg_aft)
    limits = finding_of(_rule(STABILITY_RULES, "static_margin"), plane)
    found = {"cg_range": _between(cg, forward, aft)}
    if limits.low is not None and limits.high is not None:
        found["static_margin"] = _between((neutral - cg) / chord, limits.low, limits.high)
    pack = doubts.masses[3]
    at = finding_of(_rule(MASS_RULES, "pack_reach"), plane)
    if at.value is None or not np.all(pack > 0.0):
        return found
    back = neutral - FIRST_MARGIN[0] * chord
    front = np.maximum(neutral - FIRST_MARGIN[1] * chord, forward)
    wanted = np.minimum(np.maximum(cg, front), back)
    travel, shift = balance.pack_back - balance.pack_front, balance.cg_back - balance.cg_front
    designed = balance.pack_front + (balance.cg[0] - balance.cg_front) * travel / shift
    place = designed + (wanted - cg) * doubts.masses[0] / pack
    found["pack_reach"] = _between(place, balance.pack_front, balance.pack_back)
    return found


def _power(plane: Plane, doubts: Doubts) -> dict[str, Array]:
    found: dict[str, Array] = {}
    ratio = doubts.thrust / (doubts.masses[0] * GRAVITY)
    for name, values in (
        ("static_thrust", ratio),
        ("motor_current", doubts.current),
        ("controller_current", doubts.current),
        ("pack_current", doubts.current),
    ):
        limits = finding_of(_rule(POWER_RULES, name), plane)
        if limits.low is not None:
            found[name] = values / limits.low - 1.0
        elif limits.high is not None:
            found[name] = 1.0 - values / limits.high
    return found


def _strength(plane: Plane, doubts: Doubts, stall: Array, top: Array) -> dict[str, Array]:
    loads = replace(
        plane.loads,
        masses=doubts.masses[0][:, None],
        wing_masses=np.maximum(doubts.masses[2], 1e-6)[:, None],
    )
    failures = sample_failures(
        plane.design,
        plane.airframe,
        plane.stock,
        draws=doubts.chosen("figure."),
        doubts=doubts.chosen("formula."),
        loads=loads,
        parts=plane.parts,
    )
    speed = np.maximum(top, 2.5 * stall)
    manoeuvre = np.minimum((speed / stall) ** 2, flown_cap(plane.design))
    wing = plane.airframe.wing
    gust = gust_load_factor(
        doubts.masses[0] / wing.area,
        speed=speed,
        gust=loads.gust,
        density=loads.density,
        chord=wing.mean_chord,
        lift_slope=loads.lift_slope,
    )
    needed = np.maximum(manoeuvre, gust)
    asked = {**dict.fromkeys(IN_LOAD_FACTORS, needed), "negative": NEGATIVE_SHARE * needed}
    # Tail loads were computed at the typical top speed and go with its square.
    faster = (speed / loads.top_speed) ** 2
    asked |= {"tail": faster, "pushrod": faster, "flutter": FLUTTER * np.sqrt(faster)}
    lowest: dict[str, Array] = {}
    for name, values in failures.items():
        family = family_of(name)
        lowest[family] = np.minimum(lowest.get(family, np.inf), values)
    return {
        CHECK_OF_FAMILY[family]: values / asked.get(family, 1.0) - 1.0
        for family, values in lowest.items()
        if family in CHECK_OF_FAMILY
    }
