"""Stab and fin as plates that bend, and the fuselage that carries them."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design, TailSurface
from foamwright.parts.material import PAPERS_LEFT
from foamwright.shape.model import Airframe, LiftingSurface
from foamwright.stock.model import Stock
from foamwright.strength.aeroelastic import flap_effectiveness, flutter_speed
from foamwright.strength.beams import rod_area, rod_second_moment
from foamwright.strength.cases import Figures
from foamwright.strength.torsion import laminate_torsion
from foamwright.strength.wing import NEVER, tip_bend

type Array = NDArray[np.float64]

STATIONS = 21
FLAP_SHARE = 0.8  # of thin-aerofoil theory that a hinged plate reaches at usual throws; assumed
SOUND = 340.0  # m/s, ISO 2533 near the ground
MOST_LIFT = 0.9  # lift coefficient of a flat plate with its flap down, at most, from memory


@dataclass(frozen=True, slots=True)
class PlateBend:
    """A tail surface under full throw at top speed.

    Attributes:
        force: On one half (or the whole fin). [N]
        ratios: Strength over load at the weakest place, one a build. [-]
        deflection: Of the tip, one a build. [m]
        reach: From root to tip. [m]
        why: One sentence.
    """

    force: float
    ratios: Array
    deflection: Array
    reach: float
    why: str


def full_throw_force(surface: LiftingSurface, *, density: float, speed: float) -> float:
    """Air force of a tail surface with its hinged part at full throw.

    F = q S a tau delta, a = 2 pi AR / (AR + 2), with 80 % of the theoretical flap; at most what
    a stalled plate gives.

    Args:
        surface: Stab or fin. [-]
        density: Air. [kg/m³]
        speed: [m/s]

    Returns:
        Force on the whole surface. [N]

    Source:
        Lifting line with [GLAUERT] flap effectiveness.

    Example:
        >>> round(full_throw_force(airframe.stab, density=1.2, speed=15.0), 1)
        2.9
    """
    ratio = surface.aspect_ratio
    slope = 2.0 * math.pi * ratio / (ratio + 2.0)
    lift = 0.0
    for control in surface.controls:
        share = min(max(control.chord_fraction, 0.05), 1.0)
        throw = max(control.up, control.down)
        lift = max(lift, slope * flap_effectiveness(share) * FLAP_SHARE * throw)
    return 0.5 * density * speed**2 * surface.area * min(lift, MOST_LIFT)


def _stiffener(
    name: str | None, stock: Stock, figures: Figures, half: float
) -> tuple[Array | float, Array | float, float, Array | None]:
    """Stretch stiffness, own bending stiffness, height of its middle, and breaking strain."""
    if name is None:
        return 0.0, 0.0, 0.0, None
    if name in stock.tapes:
        tape = stock.tapes[name]
        stiff = figures[f"tape.{name}.stiffness"]
        return stiff * tape.width, 0.0, half, figures[f"tape.{name}.strength"] / stiff
    rod = stock.rods[name]
    shape = rod_area(rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round)
    inertia = rod_second_moment(rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round)
    modulus = figures[f"rod.{name}.modulus"]
    breaks = figures[f"rod.{name}.strength"] / modulus
    return modulus * shape, modulus * inertia, half + 0.5 * rod.height, breaks


def plate_bend(
    surface: LiftingSurface,
    own: TailSurface,
    stock: Stock,
    *,
    figures: Figures,
    force: float,
    faces: int,
) -> PlateBend:
    """Bending of a flat surface that carries its force on the part ahead of the hinge.

    An even load by area; the hinged part carries none along the span. The stiffener lies on one
    face and ends at its extent.

    Args:
        surface: Stab or fin. [-]
        own: The same as the design has it. [-]
        stock: The stock tables. [-]
        figures: Doubted figures. [-]
        force: On one half of a stab, or the whole fin. [N]
        faces: Papers on the board. [-]

    Returns:
        Strength and deflection.

    Source:
        Sandwich beam [ALLEN], transformed section.

    Example:
        >>> round(plate_bend(airframe.stab, design.stab, stock, figures=f, force=1.5,
        ...     faces=2).reach, 2)
        0.17
    """
    reach = 0.5 * surface.span if surface.mirrored else surface.span
    share = np.linspace(0.0, 1.0, STATIONS)
    places = reach * share
    tip = own.chord if own.tip_chord is None else own.tip_chord
    chords = own.chord + share * (tip - own.chord)
    width = own.hinge * chords
    moment = _moment(places, chords, force)
    t, layers = figures["board.thickness"], own.layers
    foil = figures["board.paper_modulus"] * figures["board.paper_thickness"]
    half = 0.5 * layers * t
    levels = np.array([-0.5 * layers + k for k in range(layers + 1)])
    papers = np.full(layers + 1, float(faces))
    papers[[0, -1]] = 0.5 * faces
    spread = float(np.sum(papers * levels**2))
    plate = width * (foil * spread * t**2 + figures["board.core_modulus"] * (2 * half) ** 3 / 12.0)
    stretch = width * (foil * float(papers.sum()) + figures["board.core_modulus"] * 2.0 * half)
    middle = float(half[0, 0])
    pull, bend, high, breaks = _stiffener(own.stiffener, stock, figures, middle)
    on = (share <= own.stiffener_extent).astype(float)
    axis = on * pull * high / (stretch + on * pull)
    stiffness = plate + stretch * axis**2 + on * (pull * (high - axis) ** 2 + bend)
    curvature = moment / stiffness
    strain = curvature * (half + axis)
    limit = board_strain(figures, "both" if faces else "both peeled")
    ratios = _least(limit, strain)
    if breaks is not None:
        ratios = np.minimum(ratios, _least(breaks, on * curvature * (high - axis + middle * 0.5)))
    bend_tip = tip_bend(places, curvature)
    used = 100 * float((strain / limit)[0].max())
    why = (
        f"{force:.1f}\u00a0N on {1000 * reach:.0f}\u00a0mm bend its tip by "
        f"{1000 * float(bend_tip[0]):.1f}\u00a0mm and take {used:.0f} % of what its skin holds."
    )
    return PlateBend(force, ratios, bend_tip, reach, why)


def _moment(places: Array, chords: Array, force: float) -> Array:
    total = float(np.trapezoid(chords, places))
    load = force * chords / total
    steps = 0.5 * (load[1:] + load[:-1]) * np.diff(places)
    shear = np.concatenate([np.cumsum(steps[::-1])[::-1], [0.0]])
    steps = 0.5 * (shear[1:] + shear[:-1]) * np.diff(places)
    return np.concatenate([np.cumsum(steps[::-1])[::-1], [0.0]])


def board_strain(figures: Figures, papers: str) -> Array:
    """Strain at which the compressed side of a board gives.

    Args:
        figures: Doubted figures. [-]
        papers: What is left on: "both", "one peeled" or "both peeled". [-]

    Returns:
        Strain, one row a build. [-]

    Source:
        Strength over modulus.

    Example:
        >>> round(float(board_strain(figures, "both")[0, 0]), 4)
        0.0029
    """
    if PAPERS_LEFT[papers]:
        return figures["board.paper_compressive_strength"] / figures["board.paper_modulus"]
    return figures["board.core_compressive_strength"] / figures["board.core_modulus"]


def _least(limit: Array, strain: Array) -> Array:
    loaded = strain > 0.0
    ratios = np.where(loaded, limit / np.where(loaded, strain, 1.0), NEVER)
    return ratios.min(axis=1)


def flutter_ratio(
    surface: LiftingSurface, own: TailSurface, *, figures: Figures, faces: int, speed: float
) -> Array:
    """Flutter speed of a tail plate by the rule of thumb, over a speed.

    The board's papers and foam give the shear modulus of a solid plate of the same twist stiffness,
    G = 3 (G J / c) / t³.

    Args:
        surface: Stab or fin. [-]
        own: The same as the design has it. [-]
        figures: Doubted figures. [-]
        faces: Papers on the board. [-]
        speed: Fastest that is flown. [m/s]

    Returns:
        Ratio, one a build. [-]

    Valid:
        A rule, 30 % either way; a loose hinge or horn flutters sooner.

    Source:
        [TN4197].

    Example:
        >>> round(float(flutter_ratio(airframe.fin, design.fin, figures=f, faces=2,
        ...     speed=16.0)[0]), 1)
        7.0
    """
    tip = own.chord if own.tip_chord is None else own.tip_chord
    chord = 0.5 * (own.chord + tip)
    reach = 0.5 * surface.span if surface.mirrored else surface.span
    layers = own.layers
    # Outer faces carry one paper, glued faces two; with one paper peeled half of all.
    levels = [-0.5 * layers + 0.5 * k for k in range(0, 2 * layers + 1, 2)]
    inner = levels[1:-1] if faces == 2 else []
    t = figures["board.thickness"]
    papers = laminate_torsion(
        1.0,
        shear_modulus=figures["board.paper_shear_modulus"],
        face_thickness=figures["board.paper_thickness"],
        heights=(*(levels if faces == 2 else levels[:-1] * faces), *inner),
    )
    twist = papers * t**2 + figures["board.core_shear_modulus"] * (layers * t) ** 3 / 3.0
    solid = 3.0 * twist / (layers * t) ** 3
    critical = flutter_speed(
        solid,
        aspect_ratio=reach / chord,
        taper=tip / own.chord,
        thickness_ratio=float((layers * t)[0, 0]) / chord,
        sound=SOUND,
    )
    return np.asarray(critical).ravel() / speed


def fuselage_bend(
    design: Design, airframe: Airframe, *, figures: Figures, tail_force: float
) -> tuple[Array, str]:
    """Strength over load of the fuselage behind the wing when the elevator pulls at full throw.

    Profile: layers on edge, I = n t h³ / 12 of foam and papers; box: two sides on edge with top and
    bottom. The moment is the tail force times its arm.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        figures: Doubted figures. [-]
        tail_force: Of the whole stab. [N]

    Returns:
        Ratio, one a build [-], and one sentence.

    Source:
        Transformed section, any text.

    Example:
        >>> fuselage_bend(design, airframe, figures=f, tail_force=3.0)[1]
        'The stab pulls ...'
    """
    root = airframe.wing.panels[0]
    start = root.root[0] + root.root_chord
    at = airframe.stab.quarter_chord_x
    x = np.linspace(start, max(at, start + 1e-3), 12)
    stiffness, height = body_stiffness(design, airframe, figures=figures, x=x)
    strain = tail_force * (at - x) / stiffness * 0.5 * height
    ratios = _least(board_strain(figures, design.board.papers), strain)
    why = (
        f"The stab pulls {tail_force:.1f}\u00a0N on an arm of "
        f"{1000 * max(at - start, 0.0):.0f}\u00a0mm "
        f"behind the wing; the fuselage holds {float(ratios[0]):.1f} times that."
    )
    return ratios, why


def body_stiffness(
    design: Design, airframe: Airframe, *, figures: Figures, x: Array
) -> tuple[Array, Array]:
    """Bending stiffness of the fuselage about its own middle, and its height.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        figures: Doubted figures. [-]
        x: Places aft of the nose. [m]

    Returns:
        Stiffness (builds, places) [N m²] and heights [m].

    Source:
        Transformed section, any text.

    Example:
        >>> body_stiffness(design, airframe, figures=f, x=np.array([0.5]))[1]  # doctest: +SKIP
        array([0.06])
    """
    faces = PAPERS_LEFT[design.board.papers]
    rows = airframe.body.stations
    places = np.array([s.x for s in rows])
    height = np.interp(x, places, np.array([s.top - s.bottom for s in rows]))
    wide = np.interp(x, places, np.array([s.width for s in rows]))
    foil = faces * figures["board.paper_modulus"] * figures["board.paper_thickness"]
    wall = foil + figures["board.core_modulus"] * figures["board.thickness"]
    if design.fuselage.build == "profile":
        return design.fuselage.layers * wall * height**3 / 12.0, height
    sides = 2.0 * wall * height**3 / 12.0
    return sides + 2.0 * wall * wide * (0.5 * height) ** 2, height
