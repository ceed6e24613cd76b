"""A straight-line surface through every check's margin at both ends of a few main doubts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.checks.build import BUILD_RULES
from foamwright.checks.built import Doubts, Flown
from foamwright.checks.cutting import CUTTING_RULES
from foamwright.checks.judge import Rule, finding_margin, finding_of
from foamwright.checks.run import RULES
from foamwright.checks.side_loads import SIDE_RULES
from foamwright.checks.stiff import stiff_figures, strength_with
from foamwright.checks.strength import STRENGTH_RULES
from foamwright.strength.cases import TENTH

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.power.model import PowerTrain

type Array = NDArray[np.float64]

STILL = 1e-6  # change of a margin below which a doubt does not move a check
# What a change of these leaves as it is.
KEPT = ("airframe", "air", "parts", "lattice", "polars", "train", "layout", "strength", "loads")


@dataclass(frozen=True, slots=True)
class Surface:
    """Margins of all checks as straight lines in a few doubts.

    Attributes:
        names: Of the doubts: "mass", "cg_x", those asked for, and the stiffness figures.
        widths: Size of a doubt's step at its ends; of "mass" [kg], "cg_x" [m], else [-].
        checks: Ids of checks that can be said.
        middle: Their margins on the typical plane. [-]
        ends: Change of the margins (doubts, two ends, checks). [-]
        flown: Top speed [m/s] and foremost CG [m], typical.
        flown_ends: Change of the same (doubts, two ends, 2).
    """

    names: tuple[str, ...]
    widths: tuple[float, ...]
    checks: tuple[str, ...]
    middle: Array
    ends: Array
    flown: Array
    flown_ends: Array

    def steps(self, doubts: Doubts) -> Array:
        """How far each build lies along each doubt, in steps (doubts, builds). [-]."""
        mass, cg = doubts.masses[0], doubts.masses[1] / doubts.masses[0]
        typical = doubts.typical[1] / doubts.typical[0]
        rows = [(mass - doubts.typical[0]) / self.widths[0], (cg - typical) / self.widths[1]]
        for name in self.names[2:]:
            key = name if name.startswith(("power.", "figure.")) else f"model.{name}"
            rows.append(doubts.draw(key) / TENTH)
        return np.array(rows)

    def margins(self, doubts: Doubts) -> Iterator[tuple[str, Array, bool]]:
        """Each check's id, its margin in every build [-], and whether anything moves it."""
        steps = self.steps(doubts)
        down, up = np.clip(-steps, 0.0, None), np.clip(steps, 0.0, None)
        table = self.middle[:, None] + self.ends[:, 0].T @ down + self.ends[:, 1].T @ up
        moved = np.abs(self.ends).max(axis=(0, 1)) > STILL
        for row, check in enumerate(self.checks):
            yield check, table[row], bool(moved[row])


def driven(surface: Surface, doubts: Doubts) -> Flown:
    """Top speed and foremost CG of every build, along the lines.

    Args:
        surface: The lines. [-]
        doubts: What was drawn. [-]

    Returns:
        Both.

    Source:
        First-order propagation, JCGM 100.

    Example:
        >>> driven(surface, doubts).top_speed.mean()  # doctest: +SKIP
        16.0
    """
    steps = surface.steps(doubts)
    down, up = np.clip(-steps, 0.0, None), np.clip(steps, 0.0, None)
    change = surface.flown_ends[:, 0].T @ down + surface.flown_ends[:, 1].T @ up
    top, forward = surface.flown[:, None] + change
    return Flown(np.maximum(top, 1.0), forward)


def surface_of(plane: Plane, doubts: Sequence[str]) -> Surface:
    """Ask every check at both ends of each doubt, the others typical.

    Args:
        plane: The plane. [-]
        doubts: Names beside mass and balance: of aero's uncertainty, or "power.kv" and so on. [-]

    Returns:
        The surface.

    Source:
        First-order propagation of uncertainty, JCGM 100 (GUM) 5.1.2, by differences.

    Example:
        >>> surface_of(plane, ["lift_max"]).names[:3]
        ('mass', 'cg_x', 'lift_max')
    """
    balance = plane.balance
    mass = max(balance.mass_band.high - balance.all_up_mass, 1e-4 * balance.all_up_mass)
    shift = max(balance.cg_x_band.high - balance.cg[0], 1e-4)
    names, widths = ["mass", "cg_x"], [mass, shift]
    pairs = [
        [_heavier(plane, s * mass) for s in (-1, 1)],
        [_shifted(plane, s * shift) for s in (-1, 1)],
    ]
    for name in doubts:
        names.append(name)
        widths.append(1.0)
        pairs.append([_moved(plane, name, sign) for sign in (-1, 1)])
    stiff = stiff_figures(plane)
    names += [f"figure.{name}" for name in stiff]
    widths += [1.0] * len(stiff)
    strength = {rule.id for rule in (*STRENGTH_RULES, *SIDE_RULES)}
    fixed = strength | {rule.id for rule in (*BUILD_RULES, *CUTTING_RULES)}
    others = {rule.id for rule in RULES} - strength  # a figure of strength moves none of these
    middle = {rule.id: finding_margin(finding_of(rule, plane)) for rule in RULES}
    known = {name: margin for name, margin in middle.items() if margin is not None}
    rules = [rule for rule in RULES if rule.id in known]
    base = np.array(list(known.values()))
    bent = [[_stiffer(plane, name, sign) for sign in (-1, 1)] for name in stiff]
    ends = np.array(
        [[_change(each, rules, fixed, base) for each in pair] for pair in pairs]
        + [[_change(each, rules, others, base) for each in pair] for pair in bent]
    )
    flown = _flown(plane)
    flown_ends = np.array(
        [[_flown(each) - flown for each in pair] for pair in pairs]
        + [[np.zeros_like(flown)] * 2 for _ in bent]
    )
    return Surface(tuple(names), tuple(widths), tuple(known), base, ends, flown, flown_ends)


def _flown(plane: Plane) -> Array:
    return np.array([plane.flight.performance.top_speed, plane.aero.cg_forward])


def _change(plane: Plane, rules: Sequence[Rule], fixed: set[str], base: Array) -> Array:
    """Change of every margin; what becomes impossible to say stays as it is."""
    found = np.zeros(len(rules))
    for row, rule in enumerate(rules):
        if rule.id not in fixed:
            margin = finding_margin(finding_of(rule, plane))
            found[row] = 0.0 if margin is None else margin - base[row]
    return found


def _heavier(plane: Plane, mass: float) -> Plane:
    balance = plane.balance
    ratio = 1.0 + mass / balance.all_up_mass
    roll, pitch, yaw = balance.inertia
    heavier = replace(
        balance,
        all_up_mass=ratio * balance.all_up_mass,
        inertia=(ratio * roll, ratio * pitch, ratio * yaw),
    )
    return plane.with_results(KEPT, balance=heavier, power=plane.power)


def _shifted(plane: Plane, shift: float) -> Plane:
    balance = plane.balance
    x, y, z = balance.cg
    moved = replace(
        balance,
        cg=(x + shift, y, z),
        cg_front=balance.cg_front + shift,
        cg_back=balance.cg_back + shift,
    )
    return plane.with_results(KEPT, balance=moved, power=plane.power)


def _moved(plane: Plane, name: str, sign: int) -> Plane:
    """One in ten builds lies beyond the end that is put in."""
    if name.startswith("power."):
        train = _train_with(plane.train, name.partition(".")[2], sign)
        return plane.with_results(KEPT, balance=plane.balance, aero=plane.aero, train=train)
    aero = plane.aero
    step = sign * TENTH * aero.uncertainty[name]
    if name == "lift_max":
        lift = aero.lift_max + step
        speed = aero.stall_speed * (aero.lift_max / lift) ** 0.5
        ratio = speed / aero.stall_speed
        changed = replace(
            aero, lift_max=lift, stall_speed=speed, trim_speed=ratio * aero.trim_speed
        )
    elif name == "neutral_point_x":
        changed = replace(
            aero,
            neutral_point_x=aero.neutral_point_x + step,
            static_margin=aero.static_margin + step / aero.mean_chord,
            cg_aft=aero.cg_aft + step,
        )
    else:
        changed = replace(aero, drag_zero=max(aero.drag_zero + step, 0.2 * aero.drag_zero))
    return plane.with_results(KEPT, balance=plane.balance, aero=changed, power=plane.power)


def _stiffer(plane: Plane, figure: str, sign: int) -> Plane:
    bent = strength_with(plane, figure, sign)
    kept = {name: getattr(plane, name) for name in ("balance", "aero", "power", "flight")}
    return plane.with_results(KEPT, strength=bent, **kept)


def _train_with(train: PowerTrain, name: str, sign: int) -> PowerTrain:
    if name in ("thrust", "power"):
        blade = train.propeller
        scale, width = f"{name}_scale", getattr(blade, f"{name}_spread")
        value = getattr(blade, scale) * (1.0 + sign * TENTH * width)
        return replace(train, propeller=replace(blade, **{scale: value}))
    owner = "pack" if name == "pack_resistance" else "motor"
    field = "resistance" if name == "pack_resistance" else name
    part = getattr(train, owner)
    band = getattr(part, field)
    end = band.low if sign < 0 else band.high
    return replace(train, **{owner: replace(part, **{field: replace(band, typical=end)})})
