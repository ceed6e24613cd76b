"""What a pilot would like to read off a plane in the air: speed, height, how far from the stall."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.ground import lowest_of
from foamwright.flight.simulation.loads import Loads, deflections, loads_on
from foamwright.flight.simulation.rate import motion_through_air
from foamwright.flight.simulation.section_grid import ANGLES, SPEEDS
from foamwright.flight.simulation.state import CHARGE, STALL, rotation_of

type Array = NDArray[np.float64]

SEARCHED = (0.0, 0.60)  # rad: the angle at which a section's lift tops out lies between
WORTH = 0.15  # of the working line's slope: a degree that brings less lift brings none; assumed
GIVEN_WAY = 0.08  # lift coefficient lost beyond the top of the lift curve: the flow has let go
STANDING = 1.0  # m/s of airspeed, below which an angle of attack means nothing


class StallAngles(NamedTuple):
    """Where the lift of each strip's section first tops out.

    Attributes:
        angle: (strip, speed). [rad]
        lost: Lift coefficient that it has lost against the straight line there, negative. [-]
    """

    angle: Array
    lost: Array


@dataclass(frozen=True, slots=True)
class Gauges:
    """Read-outs of states of flight, one row a state.

    Attributes:
        airspeed: [m/s]
        alpha: Angle of attack of the fuselage line. [rad]
        lowest: Height of the lowest point of the plane above the ground. [m]
        stall_margin: Angle that the wing strip next to stalling has left; negative past it. [rad]
        separated: Whether each strip's flow has let go. [-]
        load_factor: Force of the air square to the fuselage line, over the weight. [-]
        turns: Of the propeller. [1/s]
        pack_left: Of the pack's capacity. [-]
        deflections: As the air feels them: right aileron, left aileron, elevator down, rudder left
            positive. [rad]
    """

    airspeed: Array
    alpha: Array
    lowest: Array
    stall_margin: Array
    separated: NDArray[np.bool_]
    load_factor: Array
    turns: Array
    pack_left: Array
    deflections: Array


def stall_angles(craft: Craft) -> StallAngles:
    """Angle of attack at which each strip's lift first tops out, over airspeed.

    That is where a degree more brings less than 15 % of the lift that it brings far below. (The
    lift of a flat section has no clear top: it stays level to 25 degrees, at many times the drag.)

    Args:
        craft: The plane. [-]

    Returns:
        Angles and what the section has lost there.

    Valid:
        As the section tables of foamwright.flight.simulation.section_grid.

    Source:
        Slope of straight line plus table; the share is assumed, see docs/use/fly-by-hand.md.

    Example:
        >>> bool(0.1 < stall_angles(plane.craft).angle[0, 10] < 0.3)
        True
    """
    strips = craft.strips
    angle = np.linspace(-np.pi, np.pi, ANGLES)
    near = np.flatnonzero((angle > SEARCHED[0]) & (angle < SEARCHED[1]))
    rows = strips.row[:, None, None] + np.arange(len(SPEEDS))[None, :, None] * ANGLES + near
    lost = strips.table[rows, 0]
    slope = 2.0 * strips.gain / strips.chord
    straight = np.sin(angle[near]) + strips.zero[:, None] * np.cos(angle[near])
    lift = lost + (slope[:, None] * straight)[:, None, :]
    gain = np.diff(lift, axis=2, append=-np.inf) * (ANGLES - 1) / (2.0 * np.pi)
    top = (gain < WORTH * slope[:, None, None]).argmax(axis=2)
    return StallAngles(angle[near][top], np.take_along_axis(lost, top[..., None], axis=2)[..., 0])


def gauges_of(craft: Craft, state: Array, wind: Array, *, stalls: StallAngles) -> Gauges:
    """Read everything off states of flight.

    Args:
        craft: The plane. [-]
        state: One row a state. [SI]
        wind: Of the air over ground, ground axes. [m/s]
        stalls: Of the same plane, from `stall_angles`. [-]

    Returns:
        The read-outs.

    Valid:
        As foamwright.flight.simulation.rate.

    Source:
        Definition.

    Example:
        >>> from foamwright.flight.simulation.state import start_state
        >>> at = start_state(plane.craft.strip_count, speed=9.0, height=5.0)
        >>> seen = gauges_of(plane.craft, at, np.zeros(3), stalls=stall_angles(plane.craft))
        >>> round(float(seen.airspeed[0]), 6)
        9.0
    """
    turn = rotation_of(state)
    moved = motion_through_air(state, turn, wind)
    loads = loads_on(craft, state, moved)
    airspeed = np.sqrt((moved[:, :3] ** 2).sum(axis=1))
    margin, separated = _stall(craft, state, loads, stalls=stalls)
    weight = craft.builds.mass * GRAVITY
    return Gauges(
        airspeed=airspeed,
        alpha=np.arctan2(moved[:, 2], moved[:, 0]),
        lowest=lowest_of(craft, state, turn),
        stall_margin=np.where(airspeed > STANDING, margin, stalls.angle[:, 0].min()),
        separated=separated,
        load_factor=-loads.force[:, 2] / weight,
        turns=loads.push[:, 2] / (2.0 * np.pi),
        pack_left=np.clip(1.0 - state[:, CHARGE], 0.0, 1.0),
        deflections=deflections(craft, state, moved),
    )


def _stall(
    craft: Craft, state: Array, loads: Loads, *, stalls: StallAngles
) -> tuple[Array, NDArray[np.bool_]]:
    speed = loads.strips.speed
    row = np.interp(np.log(np.maximum(speed, 1e-3)), np.log(SPEEDS), np.arange(len(SPEEDS)))
    row = np.rint(row).astype(np.intp)
    strip = np.arange(craft.strip_count)
    top, lost = stalls.angle[strip, row], stalls.lost[strip, row]
    wing = craft.strips.surface == 0
    margin = (top - loads.strips.alpha)[:, wing].min(axis=1)
    upright = state[:, STALL] < np.minimum(lost, 0.0) - GIVEN_WAY
    # A wing on its back or thrown nose-down stalls downwards, where the table gives lift back.
    return margin, upright | (state[:, STALL] > 0.25)
