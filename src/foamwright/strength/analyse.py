"""Loads against strength for the whole plane: what breaks first, at how many g."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.core.bands import Band
from foamwright.core.errors import ModelError
from foamwright.design.model import Design
from foamwright.parts.model import PartsList
from foamwright.shape.model import Airframe
from foamwright.stock.fields import known
from foamwright.stock.model import Stock
from foamwright.strength.aeroelastic import CONTROL_SHARE, divergence_speed, flap_moment
from foamwright.strength.cases import Figures, band_of, one_at_a_time
from foamwright.strength.firewall import firewall_limits
from foamwright.strength.hold import hold_limit
from foamwright.strength.linkage import pushrod_ratio, role_moment, servo_moment
from foamwright.strength.loads import SpanLoad, gust_load_factor, manoeuvre_load_factor, span_load
from foamwright.strength.model import Failure, LoadCase, StrengthResult
from foamwright.strength.named import figures_of
from foamwright.strength.tail import full_throw_force, fuselage_bend, plate_bend
from foamwright.strength.wing import NEVER, bend, tip_bend, torsional_stiffness, wing_limits
from foamwright.strength.wing_joint import joint_strength
from foamwright.strength.wing_section import FACES, WingSections, wing_sections

type Array = NDArray[np.float64]

TRAINER_LIMIT = 6.0  # g that a foam trainer is flown to, 4 to 8; common practice, no source
SPORT_LIMIT = 10.0  # g that a foam sport plane is flown to, 6 to 15; common practice, no source
TWIST_ARM = 0.15  # of the chord from lift to twist axis, which is taken at 40 %; assumed
SECTION_SLOPE = 6.2832  # 1/rad, thin aerofoil
WING_WORDS = {
    "wing_top_buckling": ("top skin buckles between its supports", "[TIMOSHENKO]"),
    "wing_top_wrinkling": ("top paper wrinkles on the foam", "[HOFF]"),
    "wing_top_crushing": ("top paper creases", "transformed section; strength from memory"),
    "wing_bottom_tension": ("bottom paper tears", "transformed section; strength from memory"),
    "wing_core_shear": ("foam of the spar shears", "[ALLEN]"),
    "wing_top_foam": ("top foam crushes", "transformed section; strength from memory"),
    "wing_bottom_foam": ("bottom foam tears", "transformed section; strength from memory"),
}
IN_G = ("wing", "centre_joint", "panel_joint", "bands", "bolts", "attachment")


@dataclass(frozen=True, slots=True)
class _Found:
    """A failure with its value in every build."""

    id: str
    name: str
    place: str
    values: Array
    why: str
    source: str


@dataclass(frozen=True, slots=True)
class _Wing:
    """What the wing's sums give."""

    sections: WingSections
    load: SpanLoad
    limits: dict[str, Array]
    curvature: Array
    twist_stiffness: Array


def analyse(
    design: Design, airframe: Airframe, stock: Stock, parts: PartsList, *, loads: LoadCase
) -> StrengthResult:
    """Loads against strength, whole plane, each failure with its band.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        parts: Everything the plane is made of; kept for the seams of later checks. [-]
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
        >>> analyse(design, airframe, stock, parts, loads=loads).first_failure  # doctest: +SKIP
        'top paper creases'
    """
    del parts
    figures = one_at_a_time(figures_of(design, stock))
    wing = _wing(design, airframe, stock, figures, loads)
    manoeuvre = min(manoeuvre_load_factor(loads.top_speed, loads.stall_speed), _cap(design))
    gust = _gust(airframe, loads)
    needed = max(manoeuvre, gust)
    notes = [*wing.sections.notes]
    found = [*_wing_failures(wing), *_joints(design, airframe, stock, wing, figures, loads)]
    hold = hold_limit(design, airframe, stock, figures=figures, loads=loads)
    notes += hold.notes
    found.append(_Found(hold.id, hold.name, "wing saddle", hold.limits, hold.why, hold.source))
    walls = firewall_limits(design, airframe, stock, figures=figures, loads=loads)
    found += [_Found(w.id, w.name, "firewall", w.ratios, w.why, w.source) for w in walls]
    tail, bends = _tail(design, airframe, stock, figures, loads)
    found += tail
    servo_loads, rods = _servos(design, stock, loads, notes)
    failures = _failures([*found, *rods], figures, notes)
    in_g = [f for f in failures if f.id.startswith(IN_G)]
    if not any(f.id.startswith("wing") for f in in_g):
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
        tip_deflection=float(tip_bend(places, needed * wing.curvature[:1])[0]),
        wing_twist=twist,
        divergence_speed=diverges,
        stab_deflection=bends[0],
        fin_deflection=bends[1],
        firewall_margin=firewall - 1.0,
        servo_loads=servo_loads,
        stations=tuple(places.tolist()),
        bending_moment=tuple((needed * wing.load.moment).tolist()),
        bending_strength=tuple((np.minimum(weakest, NEVER) * wing.load.moment).tolist()),
        notes=tuple(notes),
    )


def _cap(design: Design) -> float:
    """Load factor beyond which such a plane is not flown."""
    sport = design.pilot.level == "experienced" and design.wing.aileron is not None
    return SPORT_LIMIT if sport else TRAINER_LIMIT


def _gust(airframe: Airframe, loads: LoadCase) -> float:
    return gust_load_factor(
        loads.mass / airframe.wing.area,
        speed=loads.top_speed,
        gust=loads.gust,
        density=loads.density,
        chord=airframe.wing.mean_chord,
        lift_slope=loads.lift_slope,
    )


def _wing(
    design: Design, airframe: Airframe, stock: Stock, figures: Figures, loads: LoadCase
) -> _Wing:
    sections = wing_sections(design, airframe, stock)
    load = span_load(sections.places, sections.chords, mass=loads.mass, wing_mass=loads.wing_mass)
    bending = bend(sections, figures, load)
    limits = wing_limits(sections, figures, load, bending=bending)
    stiffness = torsional_stiffness(sections, figures)
    return _Wing(sections, load, limits, bending.curvature, stiffness)


def _wing_failures(wing: _Wing) -> list[_Found]:
    found: list[_Found] = []
    places = wing.sections.places
    for name, limit in wing.limits.items():
        worst = limit.min(axis=1)
        typical = float(worst[0])
        if not np.isnan(typical) and typical >= NEVER:
            continue
        at = int(np.nanargmin(limit[0])) if not np.isnan(limit[0]).all() else 0
        stick = name.partition(":")[2]
        words, source = WING_WORDS.get(name, (f"{stick} breaks", "transformed section"))
        moment = float(wing.load.moment[at])
        why = (
            f"{1000 * places[at]:.0f} mm out one g bends the wing with {moment:.2f} N m; there "
            f"{words} at {typical * moment:.1f} N m."
        )
        slug = name if not stick else f"wing_{stick.replace(', ', '_').replace(' ', '_')}"
        found.append(_Found(slug, words, "wing spar", worst, why, source))
    return found


def _joints(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    wing: _Wing,
    figures: Figures,
    loads: LoadCase,
) -> list[_Found]:
    """The centre joint, and the joints where panels of different dihedral meet."""
    places = wing.sections.places
    edges, reach = [0.0], 0.0
    panels = design.wing.panel
    for before, after in pairwise(panels):
        reach += before.span
        if before.dihedral != after.dihedral:
            edges.append(reach)
    found: list[_Found] = []
    for number, edge in enumerate(edges):
        station = int(np.argmin(np.abs(places - edge)))
        strength = joint_strength(
            design,
            airframe,
            stock,
            sections=wing.sections,
            figures=figures,
            station=station,
            temperature=loads.temperature,
        )
        moment = float(wing.load.moment[station])
        seam, tape, brace = (float(v[0]) for v in (strength.seam, strength.tape, strength.brace))
        why = (
            f"One g bends the joint with {moment:.2f} N m; the glued seam holds {seam:.1f}, tape "
            f"{tape:.1f} and brace {brace:.1f} N m at {loads.temperature - 273.15:.0f} °C."
        )
        name = "centre joint opens" if number == 0 else f"joint of panel {number + 1} opens"
        slug = "centre_joint" if number == 0 else f"panel_joint_{number + 1}"
        place = "wing centre joint" if number == 0 else f"wing panel {number + 1}"
        values = strength.moment / max(moment, 1e-9)
        found.append(_Found(slug, name, place, values, why, "statics; see strength.md"))
    return found


def _tail(
    design: Design, airframe: Airframe, stock: Stock, figures: Figures, loads: LoadCase
) -> tuple[list[_Found], tuple[float, float]]:
    faces = FACES[design.board.papers]
    air = {"density": loads.density, "speed": loads.top_speed}
    force = full_throw_force(airframe.stab, **air)
    stab = plate_bend(
        airframe.stab, design.stab, stock, figures=figures, force=0.5 * force, faces=faces
    )
    found = [
        _Found("stab_bending", "stab creases at its root", "stab", stab.ratios, stab.why, "[ALLEN]")
    ]
    ratios, why = fuselage_bend(design, airframe, figures=figures, tail_force=force)
    found.append(
        _Found(
            "fuselage_bending",
            "fuselage creases behind the wing",
            "fuselage",
            ratios,
            why,
            "transformed section",
        )
    )
    fin_bend = 0.0
    if airframe.fin is not None and design.fin is not None:
        side = full_throw_force(airframe.fin, **air)
        fin = plate_bend(airframe.fin, design.fin, stock, figures=figures, force=side, faces=faces)
        found.append(
            _Found("fin_bending", "fin creases at its root", "fin", fin.ratios, fin.why, "[ALLEN]")
        )
        fin_bend = float(fin.deflection[0])
    return found, (float(stab.deflection[0]), fin_bend)


def _servos(
    design: Design, stock: Stock, loads: LoadCase, notes: list[str]
) -> tuple[dict[str, float], list[_Found]]:
    shares: dict[str, float] = {}
    rods: list[_Found] = []
    for servo in design.servo:
        moment = role_moment(servo, loads.hinge_moments)
        if moment is None:
            notes.append(f"Cannot say what the {servo.role} servo must hold: no hinge moment.")
            continue
        if not known(stock.servos[servo.stock].torque, stock.rods[servo.rod].modulus):
            notes.append(f"Cannot say whether the {servo.role} servo and pushrod hold: no figures.")
            continue
        needed = servo_moment(moment, arm=servo.arm, horn=servo.horn)
        share = needed / stock.servos[servo.stock].torque.typical
        shares[servo.role] = max(share, shares.get(servo.role, 0.0))
        ratio, push, holds = pushrod_ratio(servo, stock, moment=moment)
        band = stock.rods[servo.rod].modulus
        values = min(ratio, NEVER) * np.array(
            [1.0, band.low / band.typical, band.high / band.typical]
        )
        rods.append(
            _Found(
                f"pushrod_{servo.role.replace(' ', '_')}",
                f"{servo.role} pushrod bows out",
                "pushrods",
                values,
                f"Full throw at top speed pushes with {push:.2f} N; {servo.rod} free over "
                f"{1000 * servo.rod_support:.0f} mm bows at {holds:.1f} N.",
                "[ROARK]",
            )
        )
    return shares, rods


def _failures(found: list[_Found], figures: Figures, notes: list[str]) -> tuple[Failure, ...]:
    failures: list[Failure] = []
    for each in found:
        if not np.all(np.isfinite(each.values)):
            notes.append(_missing_words(f"When the {each.name}", figures))
            continue
        band: Band = band_of(each.values, source=each.source)
        failures.append(
            Failure(each.id, each.name, each.place, band.typical, band, each.why, each.source)
        )
    return tuple(sorted(failures, key=lambda f: f.load_factor))


def _missing_words(what: str, figures: Figures) -> str:
    names = ", ".join(
        name.replace("board.", "of the board, ").replace("_", " ") for name in figures.missing
    )
    return f"{what} cannot be said: stock does not give {names or 'all it rests on'}."


def _twist(
    design: Design, airframe: Airframe, wing: _Wing, loads: LoadCase
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
