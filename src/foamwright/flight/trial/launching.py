"""One throw as meant, for the launch row of the card."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.hands import Hands
from foamwright.flight.simulation.state import attitude_of
from foamwright.flight.simulation.thrower import Thrower
from foamwright.flight.simulation.throws import AWAY, DIVED, ENDS, ROLLED, SANK, Launch, throw
from foamwright.flight.trial import limits
from foamwright.flight.trial.setting import Setting
from foamwright.flight.trial.words import side

type Array = NDArray[np.float64]

FIRST = 1.5  # s in which the nose rears up
STICK = 0.7  # three-quarter throttle or a little less; common practice, no source


@dataclass(frozen=True, slots=True)
class Launched:
    """One throw of each build, exactly as meant.

    Attributes:
        tick: Answer on the card. [-]
        lowest: Of the plane on the way. [m]
        airspeed: At the release. [m/s]
        bank: Largest, right positive. [rad]
        height: After the time looked at. [m]
    """

    tick: tuple[str, ...]
    lowest: Array
    airspeed: Array
    bank: Array
    height: Array


def launched(setting: Setting, thrower: Thrower, hands: Hands) -> Launched:
    """Throw each build once, with no spread and no wind.

    Args:
        setting: Of the test flight. [-]
        thrower: Who throws. [-]
        hands: Who flies. [-]

    Returns:
        How it went.

    Source:
        foamwright.flight.simulation.throws.

    Example:
        >>> flown.launch.tick
        ('flew',)
    """
    exact = {name: 0.0 for name in Thrower.__slots__ if name.endswith("_spread")}
    launch = Launch(
        replace(thrower, **exact),
        hands=replace(hands, reaction_spread=0.0, climb_spread=0.0),
        throttle=STICK,
    )
    thrown = throw(setting.flown, launch, setting.count, 0, workers=1)
    first = thrown.path.times <= FIRST
    nose = attitude_of(thrown.path.states[first]).pitch.max(axis=0)
    ticks = tuple(
        _tick(int(end), float(bank), pitch)
        for end, bank, pitch in zip(thrown.end, thrown.bank, nose.tolist(), strict=True)
    )
    return Launched(ticks, thrown.lowest, thrown.airspeed, thrown.bank, thrown.final_height)


def _tick(end: int, bank: float, nose: float) -> str:
    if nose > limits.LAUNCH_PITCH:
        return "pitched up"
    if end == ROLLED or (end == AWAY and abs(bank) > limits.LAUNCH_BANK):
        return f"rolled {side(bank)}"
    if end in (AWAY, SANK, DIVED):
        return {AWAY: "flew", SANK: "sank", DIVED: "nosed down"}[end]
    return "pitched up" if ENDS[end] == "stalled" else "sank"
