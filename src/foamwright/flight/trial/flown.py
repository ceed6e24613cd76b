"""Every manoeuvre of the card, flown with one build or many at once."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.hands import Hands
from foamwright.flight.simulation.thrower import Thrower
from foamwright.flight.trial.launching import Launched, launched
from foamwright.flight.trial.let_go import (
    Dive,
    PowerOff,
    PowerOn,
    Rolls,
    Waves,
    dive,
    power_off,
    power_on,
    rolls,
    waves,
)
from foamwright.flight.trial.near_ground import Landing, Toss, glide_toss, landing
from foamwright.flight.trial.rolling import Rolling, rolling
from foamwright.flight.trial.setting import Setting, setting_of
from foamwright.flight.trial.stalls import Stall, stall_straight, stall_turning
from foamwright.flight.trial.steady import (
    SteadyFlights,
    best_climb,
    best_glide,
    steady_flights,
)

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Flown:
    """Everything that was flown, n builds side by side.

    Attributes:
        setting: What it started from.
        launch: One throw.
        toss: Glide toss.
        steady: Trims, slowest flight, glide.
        rolls: Hands off.
        opened: Throttle opened.
        closed: Throttle closed.
        straight: Stall, wings level.
        turning: Stall in a turn.
        dive: Dive let go.
        rolling: Both ways.
        waves: What a push starts.
        landing: The landing.
        climb: Best rate at full power. [m/s]
        glide_drawn: Best glide ratio of the plane as drawn. [-]
    """

    setting: Setting
    launch: Launched
    toss: Toss
    steady: SteadyFlights
    rolls: Rolls
    opened: PowerOn
    closed: PowerOff
    straight: Stall
    turning: Stall
    dive: Dive
    rolling: Rolling
    waves: Waves
    landing: Landing
    climb: Array
    glide_drawn: float


def fly_card(drawn: Craft, flown: Craft, thrower: Thrower, *, hands: Hands) -> Flown:
    """Fly the whole card with one build or many at once.

    Args:
        drawn: The plane without flaws. [-]
        flown: The builds. [-]
        thrower: Who throws. [-]
        hands: Who flies after the throw. [-]

    Returns:
        All results.

    Raises:
        ModelError: The plane as drawn does not fly.

    Valid:
        Still air; as state_rate.

    Source:
        The functions of this room.

    Example:
        >>> flown.setting.count
        1
    """
    setting = setting_of(drawn, flown)
    return Flown(
        setting=setting,
        launch=launched(setting, thrower, hands),
        toss=glide_toss(setting, thrower.height),
        steady=steady_flights(setting),
        rolls=rolls(setting),
        opened=power_on(setting),
        closed=power_off(setting),
        straight=stall_straight(setting),
        turning=stall_turning(setting),
        dive=dive(setting),
        rolling=rolling(setting),
        waves=waves(setting),
        landing=landing(setting),
        climb=best_climb(setting),
        glide_drawn=best_glide(drawn),
    )
