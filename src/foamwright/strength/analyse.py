"""Loads against strength for the whole plane: what breaks first, at how many g."""

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.design.model import Design
from foamwright.parts.model import PartsList
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock
from foamwright.strength.aeroelastic import CONTROL_SHARE, divergence_speed, flap_moment
from foamwright.strength.cases import Figures, band_of, one_at_a_time
from foamwright.strength.failures import collect_failures
from foamwright.strength.found import Found, Wing
from foamwright.strength.loads import gust_load_factor, manoeuvre_load_factor
from foamwright.strength.model import Failure, LoadCase, StrengthResult
from foamwright.strength.named import figures_of
from foamwright.strength.wing import NEVER, tip_bend

type Array = NDArray[np.float64]

TRAINER_LIMIT = 6.0  # g that a foam trainer is flown to, 4 to 8; common practice, no source
SPORT_LIMIT = 10.0  # g that a foam sport plane is flown to, 6 to 15; common practice, no source
TWIST_ARM = 0.15  # of the chord from lift to twist axis, which is taken at 40 %; assumed
SECTION_SLOPE = 6.2832  # 1/rad, thin aerofoil
IN_G = ("wing", "centre_joint", "panel_joint", "splice_joint", "bands", "bolts", "attachment")


def analyse(
    design: Design, airframe: Airframe, stock: Stock, parts: PartsList, *, loads: LoadCase
) -> StrengthResult:
    """Loads against strength, whole plane, each failure with its band.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        parts: Everything the plane is made of; for the splices of the skins. [-]
        loads: Numbers of the plane. [-]

    Returns:
        What breaks first, at how many g, and what bends.

    Raises:
        ModelError: Stock lacks the figures that the wing rests on; says which.

    Valid:
        Undamaged planes, short loads. Bands are honest: until the board is tested, about 1.6 each
        way. A wing is proof-loaded by hand before it flies.

    Source:
        docs/physics/strength.md.

    Example:
        >>> analyse(design, airframe, stock, parts, loads=loads).first_failure
        'top paper creases'
    """
    figures = one_at_a_time(figures_of(design, stock))
    collected = collect_failures(design, airframe, stock, figures=figures, loads=loads, parts=parts)
    wing, notes = collected.wing, list(collected.notes)
    manoeuvre = min(manoeuvre_load_factor(loads.top_speed, loads.stall_speed), flown_cap(design))
    gust = _gust(airframe, loads)
    needed = max(manoeuvre, gust)
    unsaid = _unsaid(collected.found, figures)
    notes += unsaid.values()
    failures = _failures(collected.found)
    in_g = [f for f in failures if f.id.startswith(IN_G)]
    if not any(f.id.startswith("wing_top") for f in in_g):
        raise ModelError(_missing_words("The strength of the wing", figures))
    first = min(in_g, key=lambda f: f.load_factor)
    firewall = min((f.load_factor for f in failures if f.id.startswith("firewall")), default=0.0)
    places = wing.sections.places
    weakest = np.min([limit[0] for limit in wing.limits.values()], axis=0)
    twist, diverges = _twist(design, airframe, wing, loads)
    return StrengthResult(
        manoeuvre_load_factor=manoeuvre,
        gust_load_factor=gust,
        limit_load_factor=first.load_factor,
        first_failure=first.name,
        needed_load_factor=needed,
        failures=failures,
        tip_deflection=float(tip_bend(places, needed * wing.bending.curvature[:1])[0]),
        wing_twist=twist,
        divergence_speed=diverges,
        stab_deflection=collected.tail_bend[0],
        fin_deflection=collected.tail_bend[1],
        firewall_margin=firewall - 1.0,
        servo_loads=collected.servo_loads,
        stations=tuple(places.tolist()),
        bending_moment=tuple((needed * wing.load.moment).tolist()),
        bending_strength=tuple((np.minimum(weakest, NEVER) * wing.load.moment).tolist()),
        notes=tuple(notes),
        unsaid=unsaid,
    )


def flown_cap(design: Design) -> float:
    """Load factor beyond which such a plane is not flown.

    Args:
        design: The design. [-]

    Returns:
        10 for a sport plane with ailerons in experienced hands, else 6. [-]

    Source:
        Common practice, no source.

    Example:
        >>> flown_cap(design)
        6.0
    """
    sport = design.pilot.level == "experienced" and design.wing.aileron is not None
    return SPORT_LIMIT if sport else TRAINER_LIMIT


def _gust(airframe: Airframe, loads: LoadCase) -> float:
    return float(
        gust_load_factor(
            loads.mass / airframe.wing.area,
            speed=loads.top_speed,
            gust=loads.gust,
            density=loads.density,
            chord=airframe.wing.mean_chord,
            lift_slope=loads.lift_slope,
        )
    )


def _unsaid(found: tuple[Found, ...], figures: Figures) -> dict[str, str]:
    """What cannot be said for want of a figure, in words."""
    return {
        each.id: _missing_words(f"At what load the {each.name}", figures)
        for each in found
        if not np.all(np.isfinite(each.values))
    }


def _failures(found: tuple[Found, ...]) -> tuple[Failure, ...]:
    failures: list[Failure] = []
    for each in found:
        if np.all(np.isfinite(each.values)):
            band: Band = band_of(each.values, source=each.source)
            failures.append(
                Failure(each.id, each.name, each.place, band.typical, band, each.why, each.source)
            )
    return tuple(sorted(failures, key=lambda f: f.load_factor))


def _missing_words(what: str, figures: Figures) -> str:
    words: list[str] = []
    for name in figures.missing:
        kind, _, rest = name.partition(".")
        owner, _, figure = rest.rpartition(".")
        words.append(f"the {owner or kind}'s {figure.replace('_', ' ')}")
    names = ", ".join(words)
    return f"{what} cannot be said: stock does not give {names or 'all it rests on'}."


def _twist(
    design: Design, airframe: Airframe, wing: Wing, loads: LoadCase
) -> tuple[float, float | None]:
    """Twist of the tip, nose-up, and the speed at which it would twist off."""
    places, chords = wing.sections.places, wing.sections.chords
    stiffness = wing.twist_stiffness[0]
    if not np.all(np.isfinite(stiffness)):
        return 0.0, None
    lift_twist = wing.load.lift * TWIST_ARM * chords
    by_lift = _tip_twist(places, lift_twist, stiffness)
    pressure = 0.5 * loads.density * loads.top_speed**2
    by_aileron = 0.0
    for control in airframe.wing.controls:
        if control.name == "aileron":
            half = float(places[-1])
            on = (places >= control.start * half) & (places <= control.end * half)
            change = CONTROL_SHARE * flap_moment(control.chord_fraction) * control.down
            by_aileron = _tip_twist(places, pressure * chords**2 * change * on, stiffness)
    mean = float(np.trapezoid(stiffness, places)) / float(places[-1])
    diverges = float(
        np.asarray(
            divergence_speed(
                mean,
                half_span=float(places[-1]),
                chord=airframe.wing.mean_chord,
                arm=TWIST_ARM * airframe.wing.mean_chord,
                slope=SECTION_SLOPE,
                density=loads.density,
            )
        )
    )
    return max(by_lift, by_aileron, key=abs), diverges


def _tip_twist(places: Array, couple: Array, stiffness: Array) -> float:
    steps = 0.5 * (couple[1:] + couple[:-1]) * np.diff(places)
    torque = np.concatenate([np.cumsum(steps[::-1])[::-1], [0.0]])
    return float(np.trapezoid(torque / stiffness, places))
