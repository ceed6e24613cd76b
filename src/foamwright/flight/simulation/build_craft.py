"""From the rooms' results to the arrays of a craft."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.bodies import fin_end_plate, wing_height_effect
from foamwright.aero.model import SectionPolar
from foamwright.aero.setting import TAIL_WIND, Setting, setting_of, table_of, working_line
from foamwright.aero.slipstream import SWIRL_KEPT, WING_SHARE, slipstream_of
from foamwright.aero.thin import flap_moment
from foamwright.core.air import GRAVITY
from foamwright.flight.simulation.builds import Rooms, body_axes, builds_from
from foamwright.flight.simulation.craft import (
    Craft,
    Screw,
    StripLoads,
    Touch,
    WholeLoads,
)
from foamwright.flight.simulation.flaws import NO_FLAWS, Flaws
from foamwright.flight.simulation.lattice_forces import lattice_forces
from foamwright.flight.simulation.propulsion import thrust_grid
from foamwright.flight.simulation.section_grid import ANGLES, SPEEDS, section_rows, with_steps
from foamwright.flight.simulation.strips import StripSet, effective_wash, strips_of
from foamwright.shape.model import Airframe, LiftingSurface

type Array = NDArray[np.float64]

SINKS_IN = 0.012  # m that one point presses into grass under the plane's weight; assumed
FRICTION = 0.6  # of foam and tape on cut grass; assumed, 0.4 to 0.8
CROSS_DRAG = 1.2  # of a flat side across the stream, [HOERNER] from memory
FASTEST = 30.0  # m/s, least reach of the thrust table


def build_craft(rooms: Rooms, flaws: Flaws = NO_FLAWS, *, elevator: float | None = None) -> Craft:
    """Turn a plane's results into the arrays of the equations of motion.

    Args:
        rooms: The results. [-]
        flaws: Of one build or of n builds. [-]
        elevator: Setting with the stick centred, down positive; None takes what the aerodynamics
            room trims hands-off at 1.4 times stall speed. [rad]

    Returns:
        The craft, one row a build.

    Valid:
        As the rooms; see docs/physics/flight-simulation.md.

    Source:
        docs/physics/flight-simulation.md.

    Example:
        >>> plane.craft.count
        1
    """
    aero, balance = rooms.aero, rooms.balance
    setting = setting_of(
        rooms.airframe,
        rooms.lattice,
        rooms.polars,
        air=rooms.air,
        weight=balance.all_up_mass * GRAVITY,
        cg=balance.cg,
        lift_max=aero.lift_max_untrimmed,
    )
    trim = aero.trim_elevator if elevator is None else elevator
    screw = _screw(rooms)
    strips = _strips(rooms, setting, screw)
    base = Craft(
        name=rooms.name,
        lattice=lattice_forces(setting),
        strips=strips[1],
        whole=_whole(rooms, setting),
        screw=screw,
        thrust=thrust_grid(
            rooms.power.train,
            density=rooms.air.density,
            fastest=max(FASTEST, 1.3 * rooms.power.pitch_speed),
        ),
        travel=_travel(rooms.airframe),
        touch=_touch(rooms),
        builds=builds_from(rooms, strips[0], flaws.spread(), trim),
        flaws=flaws.spread(),
        stall_speed=aero.stall_speed,
        trim_speed=aero.trim_speed,
        elevator_trim=trim,
    )
    return base


def with_flaws(craft: Craft, rooms: Rooms, flaws: Flaws) -> Craft:
    """The same design with the flaws of other builds; cheap.

    Args:
        craft: A craft of the design. [-]
        rooms: The results that it was made of. [-]
        flaws: Of one build or of n builds. [-]

    Returns:
        The craft with these builds.

    Source:
        Definition.

    Example:
        >>> from foamwright.flight.simulation.flaws import Flaws
        >>> plane.flawed(Flaws(left_twist=np.array([0.0, 0.02]))).count
        2
    """
    cut = strips_of(_surfaces(rooms.airframe))
    given = flaws.spread()
    return replace(craft, builds=builds_from(rooms, cut, given, craft.elevator_trim), flaws=given)


def _surfaces(airframe: Airframe) -> list[LiftingSurface]:
    fin = [] if airframe.fin is None else [airframe.fin]
    return [airframe.wing, airframe.stab, *fin]


def _strips(rooms: Rooms, setting: Setting, screw: Screw) -> tuple[StripSet, StripLoads]:
    cut = strips_of(_surfaces(rooms.airframe))
    slope, zero, row, table = _sections(rooms, setting, cut)
    count = len(cut.chord)
    at = body_axes(cut.quarter, rooms.balance.cg)
    behind = at - np.column_stack([0.5 * cut.chord, np.zeros((count, 2))])
    normal = cut.normal * np.array([-1.0, 1.0, -1.0])
    zeros, ones = np.zeros(count), np.ones(count)
    axial = np.stack([ones, zeros, zeros, zeros, at[:, 2], -at[:, 1]])
    # velocity of the point: (u + q z - r y, v + r x - p z, w + p y - q x), seen from below
    y, z = normal[:, 1], normal[:, 2]
    square = np.stack([zeros, -y, -z, y * behind[:, 2] - z * behind[:, 1], z * behind[:, 0],
                       -y * behind[:, 0]])  # fmt: skip
    square = square + cut.twist * axial
    tail = np.where(cut.surface == 0, 1.0, TAIL_WIND)
    tail = np.where(cut.surface == 2, TAIL_WIND * fin_end_plate(rooms.airframe), tail)
    gain = 0.5 * cut.chord * slope * tail
    blow = effective_wash(cut, slope * tail)
    x = np.tile([1.0, 0.0, 0.0], (count, 1))
    across = np.cross(x, normal)
    none = np.zeros((count, 3))
    load = np.concatenate([
        np.hstack([normal, np.cross(at, normal)]),
        np.hstack([x, np.cross(at, x)]),
        np.hstack([none, across]),
    ])  # fmt: skip
    loss = np.array([setting.loss(name) for name in ("aileron", "aileron", "elevator", "rudder")])
    return cut, StripLoads(
        velocity=np.hstack([axial, square]),
        gain=gain,
        zero=-zero,
        blow=np.ascontiguousarray(blow.T),
        chord=cut.chord,
        width=cut.width,
        row=row,
        table=table,
        controls=cut.controls * loss[:, None],
        load=load,
        turn=np.cross(at, x),
        jet=_jet_share(cut, screw),
        surface=cut.surface,
        side=cut.side,
        place=cut.place,
    )


def _sections(
    rooms: Rooms, setting: Setting, cut: StripSet
) -> tuple[Array, Array, NDArray[np.intp], Array]:
    """Slope, zero-lift angle, first table row of each strip, and the table."""
    polars = (rooms.polars.wing, rooms.polars.stab, rooms.polars.fin)
    per_metre = rooms.air.density / rooms.air.viscosity
    made: dict[tuple[SectionPolar, float, bool], int] = {}
    lines: list[tuple[float, float]] = []
    tables: list[Array] = []
    kinds = np.zeros(len(cut.chord), dtype=np.intp)
    for number in range(len(cut.chord)):
        surface = int(cut.surface[number])
        polar = polars[surface][int(cut.panel[number])]
        chord = round(float(cut.chord[number]) / 0.02) * 0.02
        key = (polar, max(chord, 0.02), surface == 0)
        if key not in made:
            made[key] = len(made)
            line = _line(polar, key[1] * per_metre * setting.speed, surface == 0)
            lines.append(line)
            tables.append(
                section_rows(polar, key[1], per_metre=per_metre, line=line, wing=surface == 0)
            )
        kinds[number] = made[key]
    both = np.array(lines)
    table = with_steps(np.stack(tables)).reshape(-1, 6)
    return both[kinds, 0], both[kinds, 1], kinds * len(SPEEDS) * ANGLES, table


def _line(polar: SectionPolar, reynolds: float, wing: bool) -> tuple[float, float]:
    """Slope and zero-lift angle as the aerodynamics room takes them."""
    table = table_of(polar)
    lift, _, _, most = table.row(reynolds)
    if wing:
        return working_line(lift, table.alpha, most)
    low, high = np.interp([-0.05, 0.05], table.alpha, lift).tolist()
    slope = (high - low) / 0.1
    return slope, -0.5 * (low + high) / slope


def _jet_share(cut: StripSet, screw: Screw) -> Array:
    """Wing strips near the middle share what the whole wing feels; the tail's strips all alike."""
    share = np.zeros(len(cut.chord))
    wing = cut.surface == 0
    half = cut.width[wing & (cut.side > 0)].sum()
    wet = screw.immersed[0] / WING_SHARE * half
    inner = np.zeros(len(share))
    for side in (1, -1):
        mine = wing & (cut.side == side)
        start = np.cumsum(cut.width[mine]) - cut.width[mine]
        inner[mine] = np.clip((wet - start) / cut.width[mine], 0.0, 1.0)
    share[wing] = WING_SHARE * inner[wing]
    for surface in range(1, len(screw.immersed)):
        share[cut.surface == surface] = screw.immersed[surface]
    return share


def _whole(rooms: Rooms, setting: Setting) -> WholeLoads:
    aero, body, frame = rooms.aero, setting.body, rooms.airframe
    stab, wing = frame.stab, frame.wing
    moment = sum(
        flap_moment(c.chord_fraction) * TAIL_WIND for c in stab.controls if c.name == "elevator"
    )
    loss = setting.loss("elevator")
    scale = stab.area * stab.mean_chord / (wing.area * wing.mean_chord)
    x = rooms.balance.cg[0]
    top = sum(
        0.5 * (a.width + b.width) * (b.x - a.x)
        for a, b in zip(frame.body.stations, frame.body.stations[1:], strict=False)
    )
    return WholeLoads(
        density=rooms.air.density,
        area=wing.area,
        span=wing.span,
        chord=wing.mean_chord,
        datum=body_axes(np.zeros(3), rooms.balance.cg),
        drag_zero=aero.drag_zero,
        drag_factor=aero.drag_lift_factor,
        drag_bucket=aero.lift_at_drag_min,
        lift_max=aero.lift_max,
        section_moment=setting.section_moment,
        elevator_moment=moment * loss * scale,
        body_pitch=body.pitch,
        body_yaw=body.yaw + body.side * x,
        body_side=body.side,
        body_cross=(CROSS_DRAG * frame.body.side_area, CROSS_DRAG * top),
        wing_height_roll=wing_height_effect(frame),
        pitch_alpha_rate=aero.derivatives.pitch_alpha_rate,
    )


def _screw(rooms: Rooms) -> Screw:
    frame, propeller = rooms.airframe, rooms.power.train.propeller
    radius = 0.5 * frame.propeller_diameter
    stream = slipstream_of(
        frame, 0.6 * rooms.power.static_thrust, speed=rooms.aero.stall_speed,
        density=rooms.air.density,
    )  # fmt: skip
    extra = stream.speed_ratio**2 - 1.0
    shares = [(stream.lift_gain - 1.0) / extra, (stream.tail_pressure - 1.0) / extra]
    if frame.fin is not None:
        shares.append((stream.fin_pressure - 1.0) / extra)
    return Screw(
        hub=body_axes(np.array(frame.thrust_point), rooms.balance.cg),
        radius=radius,
        pitch=propeller.pitch,
        blades=propeller.blades,
        inertia=propeller.mass.typical * (2.0 * radius) ** 2 / 12.0,
        disc=math.pi * radius * radius,
        immersed=np.array(shares),
        swirled=stream.swirled,
        torque_kept=SWIRL_KEPT,
    )


def _travel(airframe: Airframe) -> Array:
    found = {c.name: c for s in _surfaces(airframe) for c in s.controls}
    rows = [
        (found[name].up, found[name].down) if name in found else (0.0, 0.0)
        for name in ("aileron", "elevator", "rudder")
    ]
    return np.array(rows).ravel()


def _touch(rooms: Rooms) -> Touch:
    frame = rooms.airframe
    stations = frame.body.stations
    cg = rooms.balance.cg
    bottom = float(np.interp(cg[0], [s.x for s in stations], [s.bottom for s in stations]))
    low = min(s.bottom for s in stations)
    points = {
        "nose": (0.0, 0.0, stations[0].bottom),
        "belly": (cg[0], 0.0, min(bottom, low)),
        "tail": (stations[-1].x, 0.0, stations[-1].bottom),
    }
    for name, surface in (("wing", frame.wing), ("stab", frame.stab)):
        tip = surface.panels[-1]
        x = tip.tip[0] + 0.5 * tip.tip_chord
        points[f"right {name} tip"] = (x, tip.tip[1], tip.tip[2])
        points[f"left {name} tip"] = (x, -tip.tip[1], tip.tip[2])
    if frame.fin is not None:
        points["fin"] = frame.fin.panels[-1].tip
    weight = rooms.balance.all_up_mass * GRAVITY
    stiffness = weight / SINKS_IN
    return Touch(
        points=body_axes(np.array(list(points.values())), cg),
        names=tuple(points),
        stiffness=stiffness,
        damping=0.5 * math.sqrt(stiffness * rooms.balance.all_up_mass),
        friction=FRICTION,
    )


__all__ = ["Rooms", "build_craft", "with_flaws"]
