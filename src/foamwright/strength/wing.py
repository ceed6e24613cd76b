"""What the wing holds: strain along the span against everything that may give."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.strength.buckling import panel_buckling_load
from foamwright.strength.cases import Figures
from foamwright.strength.loads import SpanLoad
from foamwright.strength.sandwich import (
    bare_stiffness,
    one_face_stiffness,
    sandwich_stiffness,
    wrinkling_stress,
)
from foamwright.strength.torsion import closed_cell_constant, laminate_torsion
from foamwright.strength.wing_section import Group, WingSections

type Array = NDArray[np.float64]

NEVER = 1e6  # load factor of what is not loaded at all
TINY = 1e-12


@dataclass(frozen=True, slots=True)
class Bending:
    """Bending of the wing in every build (rows) at every station (columns), for one g.

    Attributes:
        stiffness: About the neutral axis. [N m²]
        axis: Height of the neutral axis. [m]
        curvature: [1/m]
        scale: Board thickness over the typical one, per build.
    """

    stiffness: Array
    axis: Array
    curvature: Array
    scale: Array


def _weight(group: Group, figures: Figures, scale: Array) -> tuple[Array, Array, Array]:
    """Stiffness per area, and powers of the board's thickness that its area and heights take."""
    if group.kind == "paper":
        per_area = figures["board.paper_modulus"] * figures["board.paper_thickness"]
        return per_area, np.ones_like(scale), scale
    if group.kind == "foam":
        return figures["board.core_modulus"], scale, scale
    if group.kind == "rod":
        return figures[f"rod.{group.stock}.modulus"], np.ones_like(scale), scale
    return figures[f"tape.{group.stock}.stiffness"], np.ones_like(scale), scale


def bend(sections: WingSections, figures: Figures, load: SpanLoad) -> Bending:
    """Stiffness, neutral axis and curvature of the transformed section.

    EI = sum(E I) - sum(E S)² / sum(E A), axis = sum(E S) / sum(E A), curvature = M / EI.

    Args:
        sections: The wing's sections. [-]
        figures: Doubted figures, one row a build. [-]
        load: For one g. [-]

    Returns:
        The bending.

    Valid:
        Plane sections; the tilt of the principal axes is left out.

    Source:
        Transformed section, any text; reproduced in tests/validation/test_wing_section.py.

    Example:
        >>> bend(sections, figures, load).axis  # doctest: +SKIP
        array([[0.004]])
    """
    scale = figures["board.thickness"] / figures["board.thickness"][0]
    area = first = second = np.zeros((figures.builds, len(sections.places)))
    for group in sorted(sections.groups, key=lambda group: group.kind == "tape"):
        modulus, wide, tall = _weight(group, figures, scale)
        if group.kind == "tape":
            # Pressed tape folds up: only what lies below the axis of the rest pulls.
            modulus = modulus * (group.high * scale < first / area)
        area = area + modulus * wide * group.area
        first = first + modulus * wide * tall * group.first
        second = second + modulus * wide * tall**2 * group.second
    axis = first / area
    stiffness = second - first * axis
    return Bending(stiffness, axis, load.moment / stiffness, scale)


def strength_over_stress(strength: Array, stress: Array) -> Array:
    """Strength over stress for one g; never where it is not stressed that way.

    Args:
        strength: [Pa or N/m]
        stress: The same for one g. [Pa or N/m]

    Returns:
        Load factor. [-]

    Source:
        Definition.

    Example:
        >>> strength_over_stress(np.array([6.0, 6.0]), np.array([2.0, -1.0])).tolist()
        [3.0, 1000000.0]
    """
    loaded = stress > TINY
    return np.where(loaded, strength / np.where(loaded, stress, 1.0), NEVER)


def wing_limits(
    sections: WingSections, figures: Figures, load: SpanLoad, *, bending: Bending
) -> dict[str, Array]:
    """Load factor at which each thing gives, in every build at every station.

    Args:
        sections: The wing's sections. [-]
        figures: Doubted figures. [-]
        load: For one g. [-]
        bending: For one g. [-]

    Returns:
        Failure id -> load factors (builds, stations). [-]

    Source:
        Transformed section, [HOFF] wrinkling, [TIMOSHENKO] panels; see docs/physics/strength.md.

    Example:
        >>> sorted(wing_limits(sections, figures, load, bending=b))[0]
        'wing_bottom_tension'
    """
    curvature, axis, scale = bending.curvature, bending.axis, bending.scale
    limits: dict[str, Array] = {}
    skins = [g for g in sections.groups if g.kind == "paper"]
    high = np.max([g.high for g in skins], axis=0) * scale
    low = np.min([g.low for g in skins], axis=0) * scale
    press, pull = curvature * (high - axis), curvature * (axis - low)
    if sections.faces:
        modulus = figures["board.paper_modulus"]
        wrinkle = wrinkling_stress(
            modulus,
            figures["board.core_modulus"],
            core_shear_modulus=figures["board.core_shear_modulus"],
        )
        limits["wing_top_crushing"] = strength_over_stress(
            figures["board.paper_compressive_strength"], modulus * press
        )
        limits["wing_top_wrinkling"] = strength_over_stress(np.asarray(wrinkle), modulus * press)
        limits["wing_bottom_tension"] = strength_over_stress(
            figures["board.paper_tensile_strength"], modulus * pull
        )
    else:
        foam = figures["board.core_modulus"]
        limits["wing_top_foam"] = strength_over_stress(
            figures["board.core_compressive_strength"], foam * press
        )
        limits["wing_bottom_foam"] = strength_over_stress(
            figures["board.core_tensile_strength"], foam * pull
        )
    if sections.panels:
        limits["wing_top_buckling"] = _buckling(sections, figures, bending)
    height = sections.web_height * scale
    limits["wing_core_shear"] = strength_over_stress(
        figures["board.core_shear_strength"], load.shear / (sections.web * height)
    )
    limits.update(_sticks(sections, figures, bending))
    return limits


def board_stiffness(sections: WingSections, figures: Figures) -> Array:
    """Bending stiffness of the board with what papers are left, per width.

    Args:
        sections: The wing's sections. [-]
        figures: Doubted figures. [-]

    Returns:
        D, one row a build. [N m]

    Source:
        [ALLEN].

    Example:
        >>> round(float(board_stiffness(sections, figures)[0, 0]), 1)
        4.9
    """
    face = {
        "face_modulus": figures["board.paper_modulus"],
        "face_thickness": figures["board.paper_thickness"],
    }
    core_modulus = figures["board.core_modulus"]
    paper = sections.faces * figures["board.paper_thickness"]
    core = figures["board.thickness"] - paper
    if sections.faces == 0:
        return np.asarray(bare_stiffness(core_modulus=core_modulus, core_thickness=core))
    rule = sandwich_stiffness if sections.faces == 2 else one_face_stiffness
    return np.asarray(rule(**face, core_modulus=core_modulus, core_thickness=core))


def _buckling(sections: WingSections, figures: Figures, bending: Bending) -> Array:
    stiffness = board_stiffness(sections, figures)
    depth = figures["board.thickness"]
    # Shear give of the foam lowers it: 1 / N = 1 / N_bending + 1 / (G d) [ALLEN].
    shear = figures["board.core_shear_modulus"] * depth
    carry = (
        sections.faces * figures["board.paper_modulus"] * figures["board.paper_thickness"]
        + figures["board.core_modulus"] * depth
    )
    worst = np.full(bending.curvature.shape, NEVER)
    for panel in sections.panels:
        flat = panel_buckling_load(stiffness, panel.width)
        critical = 1.0 / (1.0 / flat + 1.0 / shear)
        strain = bending.curvature * (panel.height * bending.scale - bending.axis)
        worst = np.minimum(worst, strength_over_stress(np.asarray(critical), carry * strain))
    return worst


def _sticks(sections: WingSections, figures: Figures, bending: Bending) -> dict[str, Array]:
    limits: dict[str, Array] = {}
    for group in sections.groups:
        if group.kind not in ("rod", "tape"):
            continue
        here = group.area > 0.0
        up = np.abs(group.high * bending.scale - bending.axis)
        down = np.abs(group.low * bending.scale - bending.axis)
        strain = np.where(here, bending.curvature * np.maximum(up, down), 0.0)
        if group.kind == "rod":
            stiff = figures[f"rod.{group.stock}.modulus"]
            strength = figures[f"rod.{group.stock}.strength"]
        else:
            stiff = figures[f"tape.{group.stock}.stiffness"]
            strength = figures[f"tape.{group.stock}.strength"]
            # A tape only pulls: above the axis it is not asked.
            strain = np.where(group.high * bending.scale < bending.axis, strain, 0.0)
        limits[f"wing_reinforcement:{group.name}"] = strength_over_stress(strength, stiff * strain)
    return limits


def torsional_stiffness(sections: WingSections, figures: Figures) -> Array:
    """G J of the wing in every build at every station.

    Closed cell: 4 A² / integral(ds / (G t)) with papers and foam side by side in the wall; flat
    layers: 4 b sum(G t z²), and the foam's own b h³ G / 3.

    Args:
        sections: The wing's sections. [-]
        figures: Doubted figures. [-]

    Returns:
        Stiffness (builds, stations). [N m²]

    Source:
        [BREDT]; plate twist. See docs/physics/strength.md.

    Example:
        >>> round(float(torsional_stiffness(sections, figures)[0, 0]))
        13
    """
    scale = figures["board.thickness"] / figures["board.thickness"][0]
    paper = figures["board.paper_shear_modulus"] * figures["board.paper_thickness"]
    foam = figures["board.core_shear_modulus"] * figures["board.thickness"]
    if np.any(sections.cell_area > 0.0):
        wall = sections.faces * paper + foam
        area = sections.cell_area * scale
        return np.asarray(closed_cell_constant(area, sections.cell_length / wall))
    layers = laminate_torsion(
        sections.chords,
        shear_modulus=figures["board.paper_shear_modulus"],
        face_thickness=figures["board.paper_thickness"],
        heights=sections.paper_heights,
    )
    # Upper layers of a stepped wing reach over part of the chord only: half of what they add.
    share = 1.0 if len(sections.paper_heights) <= 2 else 0.5
    solid = sections.chords * (sections.depth * scale) ** 3 / 3.0
    return share * np.asarray(layers) * scale**2 + figures["board.core_shear_modulus"] * solid


def tip_bend(places: Array, curvature: Array) -> Array:
    """Deflection of the tip against the root, curvature summed twice.

    Args:
        places: Along the half span. [m]
        curvature: (builds, stations). [1/m]

    Returns:
        One a build. [m]

    Source:
        Beam theory, any text.

    Example:
        >>> y = np.linspace(0.0, 1.0, 101)
        >>> round(float(tip_bend(y, np.full((1, 101), 0.1))[0]), 4)
        0.05
    """
    arm = places[-1] - places
    return np.trapezoid(curvature * arm, places, axis=1)
