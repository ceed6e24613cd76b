"""Every way the plane may break, in every build of a set of doubted figures."""

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design, TailSurface
from foamwright.parts.model import PartsList
from foamwright.shape.model import Airframe, LiftingSurface
from foamwright.stock.fields import known
from foamwright.stock.model import Stock
from foamwright.strength.cases import Figures
from foamwright.strength.firewall import firewall_limits
from foamwright.strength.found import Collected, Found, Wing
from foamwright.strength.hold import hold_limit
from foamwright.strength.linkage import pushrod_ratio, role_moment, servo_moment
from foamwright.strength.loads import span_load
from foamwright.strength.model import LoadCase
from foamwright.strength.side_cases import joint_places, side_cases
from foamwright.strength.tail import (
    flutter_ratio,
    full_throw_force,
    fuselage_bend,
    plate_bend,
)
from foamwright.strength.wing import NEVER, bend, torsional_stiffness, wing_limits
from foamwright.strength.wing_joint import joint_strength
from foamwright.strength.wing_section import FACES, wing_sections

type Array = NDArray[np.float64]

WING_WORDS = {
    "wing_top_buckling": ("top skin buckles between its supports", "[TIMOSHENKO]"),
    "wing_top_wrinkling": ("top paper wrinkles on the foam", "[HOFF]"),
    "wing_top_crushing": ("top paper creases", "transformed section; strength from memory"),
    "wing_bottom_tension": ("bottom paper tears", "transformed section; strength from memory"),
    "wing_core_shear": ("foam of the spar shears", "[ALLEN]"),
    "wing_top_foam": ("top foam crushes", "transformed section; strength from memory"),
    "wing_bottom_foam": ("bottom foam tears", "transformed section; strength from memory"),
}


def collect_failures(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    figures: Figures,
    loads: LoadCase,
    parts: PartsList | None = None,
) -> Collected:
    """Every way the plane may break, with its value in every build.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        figures: Doubted figures, one row a build. [-]
        loads: Numbers of the plane. [-]
        parts: Everything the plane is made of, for the splices of its skins. [-]

    Returns:
        The failures; values that rest on a missing figure are not finite.

    Source:
        docs/physics/strength.md.

    Example:
        >>> collect_failures(design, airframe, stock, figures=f, loads=l).notes
        ()
    """
    wing = wing_of(design, airframe, stock, figures=figures, loads=loads)
    notes = [*wing.sections.notes]
    found = [*_wing_failures(wing), *_joints(design, airframe, stock, wing, figures, loads, parts)]
    hold = hold_limit(design, airframe, stock, figures=figures, loads=loads)
    notes += hold.notes
    found.append(Found(hold.id, hold.name, "wing saddle", hold.limits, hold.why, hold.source))
    walls = firewall_limits(design, airframe, stock, figures=figures, loads=loads)
    found += [Found(w.id, w.name, "firewall", w.ratios, w.why, w.source) for w in walls]
    found += side_cases(
        design, airframe, stock, wing=wing, figures=figures, loads=loads, parts=parts, hold=hold
    )
    tail, bends = _tail(design, airframe, stock, figures, loads)
    servo_loads, rods, more = _servos(design, stock, loads, figures)
    return Collected((*found, *tail, *rods), wing, bends, servo_loads, (*notes, *more))


def wing_of(
    design: Design, airframe: Airframe, stock: Stock, *, figures: Figures, loads: LoadCase
) -> Wing:
    """The wing's sums: loads, bending, limits and twist stiffness in every build.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        figures: Doubted figures, one row a build. [-]
        loads: Numbers of the plane. [-]

    Returns:
        The sums.

    Source:
        Transformed section; see docs/physics/strength.md.

    Example:
        >>> wing_of(design, airframe, stock, figures=f, loads=l).limits.keys()  # doctest: +SKIP
    """
    sections = wing_sections(design, airframe, stock)
    at, chords = sections.places, sections.chords
    shape = lift_shape(at, loads)
    load = span_load(at, chords, mass=loads.mass, wing_mass=loads.wing_mass, shape=shape)
    each = load
    if loads.masses is not None and loads.wing_masses is not None:
        each = span_load(at, chords, mass=loads.masses, wing_mass=loads.wing_masses, shape=shape)
    bending = bend(sections, figures, each)
    limits = wing_limits(sections, figures, each, bending=bending)
    stiffness = torsional_stiffness(sections, figures)
    moment = np.atleast_2d(each.moment)
    return Wing(sections, load, moment, limits, bending, stiffness)


def lift_shape(places: Array, loads: LoadCase) -> Array | None:
    """Lift per span at places along the half span as the lattice has it; None without one.

    Args:
        places: From the middle to the tip. [m]
        loads: Numbers of the plane. [-]

    Returns:
        Lift per span in any measure. [any]

    Source:
        Definition.

    Example:
        >>> lift_shape(np.array([0.0, 0.5]), loads)  # doctest: +SKIP
        array([1.2, 0.])
    """
    if len(loads.lift_places) < 2:
        return None
    share, shape = np.array(loads.lift_places), np.array(loads.lift_shape)
    # Lift falls to nothing at the tip as the root of the distance to it: read off its square.
    share, square = np.append(share, 1.0), np.append(shape**2, 0.0)
    return np.sqrt(np.interp(places / float(places[-1]), share, square))


def _wing_failures(wing: Wing) -> list[Found]:
    found: list[Found] = []
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
            f"{1000 * places[at]:.0f}\u00a0mm out one g bends the wing with {moment:.2f}\u00a0N "
            f"m; there {words} at {typical * moment:.1f}\u00a0N m."
        )
        slug = name if not stick else f"wing_{stick.replace(', ', '_').replace(' ', '_')}"
        found.append(Found(slug, words, "wing spar", worst, why, source))
    return found


def _joints(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    wing: Wing,
    figures: Figures,
    loads: LoadCase,
    parts: PartsList | None,
) -> list[Found]:
    """The centre joint, joints where the dihedral breaks, and splices of the skins."""
    places = wing.sections.places
    found: list[Found] = []
    for joint in joint_places(design, airframe, parts):
        station = int(np.argmin(np.abs(places - joint.place)))
        strength = joint_strength(
            design,
            airframe,
            stock,
            sections=wing.sections,
            figures=figures,
            station=station,
            braced=joint.braced,
            temperature=loads.temperature,
        )
        moment = float(wing.load.moment[station])
        seam, tape, brace = (float(v[0]) for v in (strength.seam, strength.tape, strength.brace))
        why = (
            f"One g bends the joint with {moment:.2f}\u00a0N m; the glued seam holds "
            f"{seam:.1f}\u00a0N m, tape {tape:.1f}\u00a0N m and brace {brace:.1f}\u00a0N m at "
            f"{loads.temperature - 273.15:.0f}\u00a0°C."
        )
        values = strength.moment / np.maximum(wing.moment[:, station], 1e-9)
        found.append(
            Found(joint.id, joint.name, joint.where, values, why, "statics; see strength.md")
        )
    return found


def _tail(
    design: Design, airframe: Airframe, stock: Stock, figures: Figures, loads: LoadCase
) -> tuple[list[Found], tuple[float, float]]:
    faces = FACES[design.board.papers]
    air = {"density": loads.density, "speed": loads.top_speed}
    force = full_throw_force(airframe.stab, **air)
    stab = plate_bend(
        airframe.stab, design.stab, stock, figures=figures, force=0.5 * force, faces=faces
    )
    found = [
        Found("stab_bending", "stab creases at its root", "stab", stab.ratios, stab.why, "[ALLEN]")
    ]
    ratios, why = fuselage_bend(design, airframe, figures=figures, tail_force=force)
    found.append(
        Found(
            "fuselage_bending",
            "fuselage creases behind the wing",
            "fuselage",
            ratios,
            why,
            "transformed section",
        )
    )
    found.append(_flutter("stab", airframe.stab, design.stab, figures, (faces, loads.top_speed)))
    fin_bend = 0.0
    if airframe.fin is not None and design.fin is not None:
        side = full_throw_force(airframe.fin, **air)
        fin = plate_bend(airframe.fin, design.fin, stock, figures=figures, force=side, faces=faces)
        found.append(
            Found("fin_bending", "fin creases at its root", "fin", fin.ratios, fin.why, "[ALLEN]")
        )
        found.append(_flutter("fin", airframe.fin, design.fin, figures, (faces, loads.top_speed)))
        fin_bend = float(fin.deflection[0])
    return found, (float(stab.deflection[0]), fin_bend)


def _flutter(
    name: str,
    surface: LiftingSurface,
    own: TailSurface,
    figures: Figures,
    flown: tuple[int, float],
) -> Found:
    faces, speed = flown
    ratios = flutter_ratio(surface, own, figures=figures, faces=faces, speed=speed)
    why = (
        f"By the rule for plates the {name} flutters at "
        f"{float(ratios[0]) * speed:.0f}\u00a0m/s; flown "
        f"to {speed:.0f}\u00a0m/s."
    )
    return Found(f"{name}_flutter", f"{name} flutters", name, ratios, why, "[TN4197]")


def _servos(
    design: Design, stock: Stock, loads: LoadCase, figures: Figures
) -> tuple[dict[str, float], list[Found], list[str]]:
    notes: list[str] = []
    shares: dict[str, float] = {}
    rods: list[Found] = []
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
        modulus = figures[f"rod.{servo.rod}.modulus"].ravel()
        values = min(ratio, NEVER) * modulus / modulus[0]
        rods.append(
            Found(
                f"pushrod_{servo.role.replace(' ', '_')}",
                f"{servo.role} pushrod bows out",
                "pushrods",
                values,
                f"Full throw at top speed pushes with {push:.2f}\u00a0N; {servo.rod} free over "
                f"{1000 * servo.rod_support:.0f}\u00a0mm bows at {holds:.1f}\u00a0N.",
                "[ROARK]",
            )
        )
    return shares, rods, notes
