"""One plane in one air at one mass and CG: what every question of this room starts from."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.bodies import BodyEffect, body_effect, fin_end_plate
from foamwright.aero.flaps import OPEN_GAP, hinge_share
from foamwright.aero.lattice import LatticeSolution
from foamwright.aero.model import SectionPolar
from foamwright.aero.response import (
    BASE,
    Forces,
    Response,
    State,
    forces_in_all,
    response_of,
)
from foamwright.aero.sections import SectionPolars
from foamwright.aero.slopes import inviscid_slopes, rolling_slopes
from foamwright.aero.thin import TWO_PI, flap_moment
from foamwright.core.air import Air
from foamwright.core.errors import ModelError
from foamwright.shape.model import Airframe, ControlSurface, LiftingSurface

type Array = NDArray[np.float64]

TAIL_WIND = (
    0.95  # dynamic pressure at the tail over the stream's, behind wing and fuselage; assumed
)
TRIM_RATIO = 1.4  # trim speed over stall speed, house definition
GUESS_LIFT = 1.0  # to start the Reynolds number from; replaced after the first pass


@dataclass(frozen=True, slots=True)
class Table:
    """A section polar as arrays, rows at rising Reynolds numbers.

    Attributes:
        log_reynolds: Natural logarithm. [-]
        alpha: [rad]
        lift: (Re, n). [-]
        drag: (Re, n). [-]
        moment: (Re, n). [-]
        lift_max: (Re). [-]
        rows: Lift, drag and moment together, (Re, 3, n). [-]
    """

    log_reynolds: Array
    alpha: Array
    lift: Array
    drag: Array
    moment: Array
    lift_max: Array
    rows: Array

    def row(self, reynolds: float) -> tuple[Array, Array, Array, float]:
        """Lift, drag, moment and largest lift [-] at one Reynolds number."""
        logs = self.log_reynolds
        here = min(max(math.log(reynolds), float(logs[0])), float(logs[-1]))
        low = min(int(logs.searchsorted(here, side="right")), len(logs) - 1) - 1
        w = (here - float(logs[low])) / float(logs[low + 1] - logs[low])
        lift, drag, moment = (1.0 - w) * self.rows[low] + w * self.rows[low + 1]
        most = (1.0 - w) * float(self.lift_max[low]) + w * float(self.lift_max[low + 1])
        return lift, drag, moment, most


@dataclass(frozen=True, slots=True)
class Setting:
    """What the questions start from.

    Attributes:
        airframe: The shape.
        air: The air.
        weight: [N]
        response: Unit responses with real slopes.
        body: The fuselage's moments and side force.
        tables: One a wing panel.
        tail_table: Of the stab.
        camber: Minus the wing section's zero-lift angle in the working range. [rad]
        section_moment: Pitching moment coefficient of the wing sections, whole plane. [-]
        downwash: d(downwash)/d(alpha) at the stab. [-]
        speed: At which Reynolds numbers are taken. [m/s]
    """

    airframe: Airframe
    air: Air
    weight: float
    response: Response
    body: BodyEffect
    tables: tuple[Table, ...]
    tail_table: Table
    camber: float
    section_moment: float
    downwash: float
    speed: float

    @property
    def wing(self) -> LiftingSurface:
        """The wing."""
        return self.airframe.wing

    def reynolds(self, chord: float, speed: float) -> float:
        """Reynolds number [-] of a chord at a speed."""
        return self.air.density * speed * chord / self.air.viscosity

    def speed_at(self, lift_coefficient: float) -> float:
        """Level speed [m/s] at a lift coefficient."""
        return math.sqrt(
            2.0 * self.weight / (self.air.density * self.wing.area * max(lift_coefficient, 1e-3))
        )

    def loss(self, name: str) -> float:
        """Real over ideal effectiveness [-] of a control."""
        control = self.control(name)
        return hinge_share(0.0 if control[1].gap_sealed else OPEN_GAP) if control else 0.0

    def control(self, name: str) -> tuple[LiftingSurface, ControlSurface] | None:
        """The surface and the control of that name; None without."""
        for surface in (self.airframe.wing, self.airframe.stab, self.airframe.fin):
            if surface is None:
                continue
            for control in surface.controls:
                if control.name == name:
                    return surface, control
        return None


def table_of(polar: SectionPolar) -> Table:
    """A polar as arrays.

    Args:
        polar: The table.

    Returns:
        The same as arrays.

    Source:
        Definition.

    Example:
        >>> table_of(polar).lift.shape  # doctest: +SKIP
        (7, 46)
    """
    lift, drag, moment = (np.array(rows) for rows in (polar.lift, polar.drag, polar.moment))
    return Table(
        np.log(polar.reynolds),
        np.array(polar.alpha),
        lift,
        drag,
        moment,
        np.array(polar.lift_max),
        np.stack([lift, drag, moment], axis=1),
    )


_KEPT: dict[int, tuple[SectionPolar, Table]] = {}  # by identity: a polar's hash costs as much
MOST_KEPT = 256


def _kept_table(polar: SectionPolar) -> Table:
    """`table_of`, made once as long as the polar lives on here."""
    found = _KEPT.get(id(polar))
    if found is None or found[0] is not polar:
        if len(_KEPT) >= MOST_KEPT:
            _KEPT.clear()
        found = _KEPT[id(polar)] = (polar, table_of(polar))
    return found[1]


def working_line(lift: Array, alpha: Array, most: float) -> tuple[float, float]:
    """Slope and zero-lift angle of the straight line through the working range of a section.

    Through the points at 25 % and 65 % of the largest lift, where the plane flies; the curve's
    own foot may bend.

    Args:
        lift: Rising up to the stall. [-]
        alpha: [rad]
        most: Largest lift. [-]

    Returns:
        Slope and angle. [1/rad], [rad]

    Source:
        Definition.

    Example:
        >>> a = np.radians(np.arange(-5.0, 15.0))
        >>> slope, zero = working_line(6.0 * (a + 0.05), a, 1.2)
        >>> round(slope, 2), round(zero, 3)
        (6.0, -0.05)
    """
    end = int(np.argmax(lift)) + 1
    start = int(np.argmin(lift[:end]))
    low, high = np.interp([0.25 * most, 0.65 * most], lift[start:end], alpha[start:end])
    slope = 0.40 * most / max(high - low, 1e-4)
    return float(slope), float(low - 0.25 * most / slope)


def setting_of(
    airframe: Airframe,
    lattice: LatticeSolution,
    polars: SectionPolars,
    *,
    air: Air,
    weight: float,
    cg: tuple[float, float, float],
    lift_max: float | None = None,
) -> Setting:
    """Bring lattice and sections together at one mass and CG.

    Args:
        airframe: The shape.
        lattice: Its unit solutions.
        polars: Its section tables.
        air: The air.
        weight: [N]
        cg: [m]
        lift_max: Largest lift coefficient when known; None starts from 1. [-]

    Returns:
        The setting.

    Raises:
        ModelError: No weight or no air.

    Source:
        1/a = 1/a_lattice + 1/a_section - 1/(2 pi), lifting-line form of section slope.

    Example:
        >>> setting_of(frame, lattice, polars, air=air, weight=6.0, cg=cg)  # doctest: +SKIP
    """
    if not (weight > 0.0 and math.isfinite(weight) and air.density > 0.0):
        raise ModelError(f"The plane's weight must be positive; got {weight} N.")
    wing = airframe.wing
    surfaces = [airframe.wing, airframe.stab, *([airframe.fin] if airframe.fin else [])]
    level = lift_max or GUESS_LIFT
    speed = TRIM_RATIO * math.sqrt(2.0 * weight / (air.density * wing.area * level))
    tables = tuple(_kept_table(p) for p in polars.wing)
    per_metre = air.density * speed / air.viscosity
    slope, zero, moment = _wing_sections(wing, tables, per_metre)
    tails = [_kept_table(polars.stab[0]), *([_kept_table(polars.fin[0])] if polars.fin else [])]
    real = [slope]
    for surface, table in zip(surfaces[1:], tails, strict=True):
        lift, _, _, _ = table.row(per_metre * surface.mean_chord)
        near = np.interp([-0.05, 0.05], table.alpha, lift)
        real.append(float(near[1] - near[0]) / 0.1)
    ideal = inviscid_slopes(lattice, surfaces)
    short = 1.0 / np.array(real) - 1.0 / TWO_PI
    gains, opposite = (
        1.0 / (1.0 + slopes * short) for slopes in (ideal, rolling_slopes(lattice, ideal))
    )
    for gain in (gains, opposite):
        gain[1:] *= TAIL_WIND
        if airframe.fin is not None:
            gain[2] *= fin_end_plate(airframe)
    response = response_of(
        lattice,
        gains=gains,
        sizes=(wing.area, wing.span, wing.mean_chord),
        cg=cg,
        opposite=opposite,
    )
    (from_wing,), (own,) = lattice.select("alpha", 0), lattice.select("alpha", 1)
    felt, self_made = (response.forces[c, BASE, 1, 2] for c in (from_wing, own))
    downwash = -float(felt) / float(self_made)
    return Setting(
        airframe=airframe,
        air=air,
        weight=weight,
        response=response,
        body=body_effect(airframe, downwash=downwash),
        tables=tables,
        tail_table=tails[0],
        camber=-zero,
        section_moment=moment,
        downwash=downwash,
        speed=speed,
    )


def _wing_sections(
    wing: LiftingSurface, tables: tuple[Table, ...], per_metre: float
) -> tuple[float, float, float]:
    """Slope and zero-lift angle, area mean; moment coefficient on wing area and mean chord."""
    total = slope = zero = moment = 0.0
    for panel, table in zip(wing.panels, tables, strict=True):
        chord = 0.5 * (panel.root_chord + panel.tip_chord)
        length = math.hypot(panel.tip[1] - panel.root[1], panel.tip[2] - panel.root[2])
        lift, _, section_moment, most = table.row(per_metre * chord)
        a, z = working_line(lift, table.alpha, most)
        area = chord * length
        total, slope, zero = total + area, slope + area * a, zero + area * z
        start, end = np.interp([0.25 * most, 0.65 * most], np.maximum.accumulate(lift), table.alpha)
        inside = (table.alpha >= start) & (table.alpha <= end)
        mean = float(section_moment[inside].mean()) if inside.any() else 0.0
        moment += area * chord * mean
    return slope / total, zero / total, moment / (total * wing.mean_chord)


def coefficients(setting: Setting, state: State) -> Forces:
    """All coefficients of the plane in a state: surfaces, section moments, fuselage, real controls.

    Args:
        setting: The plane.
        state: The state; deflections as set, losses are applied here.

    Returns:
        Coefficients about the CG; drag is induced only.

    Source:
        Sum of lattice, section moments and bodies.py.

    Example:
        >>> coefficients(setting, State(alpha=0.1)).lift  # doctest: +SKIP
        0.7
    """
    return coefficients_in(setting, [state])[0]


def coefficients_in(setting: Setting, states: Sequence[State]) -> tuple[Forces, ...]:
    """`coefficients` in several states at once.

    Args:
        setting: The plane.
        states: The states.

    Returns:
        One a state.

    Source:
        As `coefficients`.

    Example:
        >>> len(coefficients_in(setting, [State(), State(0.1)]))  # doctest: +SKIP
        2
    """
    losses = {name: setting.loss(name) for s in states for name in (s.controls or {})}
    real = [
        {name: turn * losses[name] for name, turn in (s.controls or {}).items()} for s in states
    ]
    worked = [
        State(s.alpha, s.beta, s.roll, s.pitch, s.yaw, turns)
        for s, turns in zip(states, real, strict=True)
    ]
    plain = forces_in_all(setting.response, worked, setting.camber)
    wing, body, x = setting.wing, setting.body, setting.response.cg[0]
    area, span, chord = wing.area, wing.span, wing.mean_chord
    # Side force aft of the CG turns the nose into the wind: yaw right is x_cg - x times side force.
    turn = (body.yaw + body.side * x) / (area * span)
    return tuple(
        Forces(
            lift=found.lift,
            drag=found.drag,
            side=found.side + body.side * s.beta / area,
            roll=found.roll,
            pitch=found.pitch
            + body.pitch * s.alpha / (area * chord)
            + setting.section_moment
            + _flap_moments(setting, turns),
            yaw=found.yaw + turn * s.beta,
        )
        for found, s, turns in zip(plain, states, real, strict=True)
    )


def _flap_moments(setting: Setting, real: dict[str, float]) -> float:
    """Section moment of a deflected elevator about its own quarter chord."""
    stab, wing = setting.airframe.stab, setting.wing
    total = 0.0
    for control in stab.controls:
        if control.name == "elevator" and control.name in real:
            slope = flap_moment(control.chord_fraction) * real[control.name] * TAIL_WIND
            total += slope * stab.area * stab.mean_chord / (wing.area * wing.mean_chord)
    return total
