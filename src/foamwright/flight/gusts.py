"""What gusts do to the plane in the air."""

import math
from dataclasses import dataclass

from foamwright.aero.model import AeroResult
from foamwright.strength.loads import gust_load_factor

GUST_FACTOR = 1.4  # peak of 2 s over 10 minute mean, open flat country [DURST]
VERTICAL_SHARE = 0.5  # of the mean wind that an up-gust near the ground may reach; assumed
SLOPE = 0.5  # of a gust that one wing tip feels more than the other; assumed


@dataclass(frozen=True, slots=True)
class GustResponse:
    """The plane in a mean wind with its gusts.

    Attributes:
        wind: Mean. [m/s]
        peak: Strongest 2 s gust. [m/s]
        load_factor_change: By an up-gust of half the mean wind. [-]
        stalls: Whether that gust carries the wing beyond its largest lift.
        roll_upset: Roll rate that an uneven gust makes. [rad/s]
        roll_held: Whether full aileron beats that; None without ailerons.
        penetrates: Whether the plane still makes way against the peak.
        words: One sentence.
    """

    wind: float
    peak: float
    load_factor_change: float
    stalls: bool
    roll_upset: float
    roll_held: bool | None
    penetrates: bool
    words: str


def gust_response(
    aero: AeroResult, mass: float, *, speed: float, wind: float, density: float
) -> GustResponse:
    """Load, stall, roll and headway in a gusty wind.

    dn = Kg rho U V a/(2 W/S), Kg = 0.88 mu/(5.3 + mu); an uneven gust rolls like dp = U/(b/2) x
    share; the peak is 1.4 times the mean.

    Args:
        aero: The plane's aerodynamics. [-]
        mass: All-up. [kg]
        speed: True airspeed. [m/s]
        wind: Ten-minute mean. [m/s]
        density: Air. [kg/m³]

    Returns:
        The response.

    Valid:
        Open flat country; sharp-edged gusts eased by Pratt's factor.

    Source:
        Pratt, NACA TR 1206; 14 CFR 23.341; gust factor Durst 1960 [DURST].

    Example:
        >>> gust_response(aero, 0.6, speed=9.0, wind=1.0, density=1.2).stalls
        False
    """
    gust = VERTICAL_SHARE * wind
    loaded = gust_load_factor(
        mass / aero.wing_area,
        speed=speed,
        gust=gust,
        density=density,
        chord=aero.mean_chord,
        lift_slope=aero.lift_slope,
    )
    change = float(loaded) - 1.0
    peak = GUST_FACTOR * wind
    reserve = (speed / aero.stall_speed) ** 2 - 1.0
    stalls = bool(change > reserve)
    upset = SLOPE * gust / (0.5 * aero.span)
    held = aero.roll_rate > upset if aero.roll_rate > 0.0 else None
    penetrates = speed > peak
    return GustResponse(
        wind=wind,
        peak=peak,
        load_factor_change=change,
        stalls=stalls,
        roll_upset=upset,
        roll_held=held,
        penetrates=penetrates,
        words=_words(change, stalls, held, penetrates=penetrates),
    )


def _words(change: float, stalls: bool, held: bool | None, *, penetrates: bool) -> str:
    said = [f"gusts load it by {change:.1f} g"]
    if stalls:
        said.append("and can stall it")
    if held is False:
        said.append("and roll it faster than the ailerons do")
    if not penetrates:
        said.append("and it drifts back at full gust")
    return ", ".join(said) + "."


def gust_wind_limit(
    aero: AeroResult, mass: float, *, speed: float, density: float
) -> tuple[float, str]:
    """Mean wind at which the first of stall, roll and headway gives out.

    Args:
        aero: The plane's aerodynamics. [-]
        mass: All-up. [kg]
        speed: True airspeed. [m/s]
        density: Air. [kg/m³]

    Returns:
        Mean wind [m/s] and what gives out first.

    Source:
        `gust_response`, each of its limits solved for the wind (all are linear in it).

    Example:
        >>> gust_wind_limit(aero, 0.6, speed=9.0, density=1.2)[1] in ("headway", "roll", "stall")
        True
    """
    unit = gust_response(aero, mass, speed=speed, wind=1.0, density=density)
    limits = {
        "stall": ((speed / aero.stall_speed) ** 2 - 1.0) / max(unit.load_factor_change, 1e-9),
        "headway": speed / GUST_FACTOR,
    }
    if aero.roll_rate > 0.0:
        limits["roll"] = aero.roll_rate / unit.roll_upset
    first = min(limits, key=lambda name: limits[name])
    return (limits[first], first) if math.isfinite(limits[first]) else (0.0, first)
