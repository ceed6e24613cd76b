"""The centre joint and every other joint of the wing: seam, tape and brace."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import ModelError
from foamwright.design.model import Design
from foamwright.shape.model import Airframe
from foamwright.shape.section import spar_size
from foamwright.stock.model import Stock
from foamwright.strength.beams import rod_moment, rod_second_moment
from foamwright.strength.cases import Figures
from foamwright.strength.joint import heat_factor, tape_line_strength, torsion_patch_moment
from foamwright.strength.wing_section import WingSections

type Array = NDArray[np.float64]

SEAM_PEAK = 1.5  # stress at the paper's end over that in plain foam: the paper stops there; assumed
TAPED_SHARE = (
    0.8  # of the chord whose tape pulls: towards nose and tail the depth runs out; assumed
)


@dataclass(frozen=True, slots=True)
class JointStrength:
    """Bending moment that a joint holds, its parts apart, one a build.

    Attributes:
        seam: The glued butt seam alone. [N m]
        tape: Tape under it against the top skin; 0 without. [N m]
        brace: The brace with its glue; 0 without. [N m]
        seam_down: The seam with the tips bent down. [N m]
        tape_down: Tape over the top with the tips bent down; 0 without. [N m]
    """

    seam: Array
    tape: Array
    brace: Array
    seam_down: Array
    tape_down: Array

    @property
    def moment(self) -> Array:
        """Seam or tape, whichever is stronger, and the brace. [N m]."""
        return np.maximum(self.seam, self.tape) + self.brace

    @property
    def moment_down(self) -> Array:
        """The same with the tips bent down. [N m]."""
        return np.maximum(self.seam_down, self.tape_down) + self.brace


def glue_tension(figures: Figures, glue: str, temperature: float) -> Array:
    """Tension that a glued foam edge holds: foam or warm glue, whichever gives first.

    Args:
        figures: Doubted figures. [-]
        glue: Name in stock. [-]
        temperature: Of the glue. [K]

    Returns:
        Strength, one a build. [Pa]

    Source:
        Smaller of two; heat by heat_factor.

    Example:
        >>> glue_tension(figures, "hot glue", 296.0)  # doctest: +SKIP
        array([[200000.0]])
    """
    kept = heat_factor(temperature, figures[f"glue.{glue}.hot_temperature"])
    warm = figures[f"glue.{glue}.shear_strength"] * kept
    return np.minimum(figures[f"glue.{glue}.tension_strength"], warm)


def glue_shear(figures: Figures, glue: str, temperature: float) -> Array:
    """Shear that a joint on board paper holds: paper and foam, or warm glue.

    Args:
        figures: Doubted figures. [-]
        glue: Name in stock. [-]
        temperature: Of the glue. [K]

    Returns:
        Strength, one a build. [Pa]

    Source:
        Smaller of two; heat by heat_factor.

    Example:
        >>> glue_shear(figures, "hot glue", 296.0)  # doctest: +SKIP
        array([[150000.0]])
    """
    kept = heat_factor(temperature, figures[f"glue.{glue}.hot_temperature"])
    warm = figures[f"glue.{glue}.shear_strength"] * kept
    return np.minimum(figures[f"glue.{glue}.board_shear_strength"], warm)


def joint_strength(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    sections: WingSections,
    figures: Figures,
    station: int,
    braced: bool,
    temperature: float,
) -> JointStrength:
    """What a joint across the wing holds at one station.

    Seam: foam section in tension to the glue's strength over SEAM_PEAK. Tape: what tears or peels,
    times chord, times depth. Brace: its own bending or its glue patch on one arm.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        sections: The wing's sections. [-]
        figures: Doubted figures. [-]
        station: Number of the station; 0 is the centre. [-]
        braced: Whether the brace crosses it. [-]
        temperature: Of the glue. [K]

    Returns:
        Moments, one a build.

    Valid:
        Seams that fit: the papers of the top skin bear on each other. Seam or tape and brace are
        added as if both gave way slowly, which hot glue does and brittle glue does not.

    Source:
        Statics; see docs/physics/strength.md.

    Example:
        >>> joint_strength(design, airframe, stock, sections=s, figures=f, station=0,
        ...     braced=True, temperature=296.0).moment  # doctest: +SKIP
    """
    scale = figures["board.thickness"] / figures["board.thickness"][0]
    glue = design.wing.joint.glue
    foams = [g for g in sections.groups if g.kind == "foam"]
    area = sum(float(g.area[station]) for g in foams)
    first = sum(float(g.first[station]) for g in foams)
    second = sum(float(g.second[station]) for g in foams)
    axis = first / area
    low = min(float(g.low[station]) for g in foams)
    high = max(float(g.high[station]) for g in foams)
    inertia = second - first * axis
    modulus, modulus_down = inertia / (axis - low), inertia / (high - axis)
    tension = glue_tension(figures, glue, temperature)
    seam = tension * modulus * scale**2 / SEAM_PEAK
    seam_down = tension * modulus_down * scale**2 / SEAM_PEAK
    tape = np.zeros_like(seam)
    name = design.wing.joint.tape
    if name is not None:
        entry = stock.tapes[name]
        line = tape_line_strength(
            figures[f"tape.{name}.strength"],
            bond=glue_shear(figures, glue, temperature),
            reach=0.5 * entry.width,
        )
        tape = line * TAPED_SHARE * sections.chords[station] * sections.depth[station] * scale
    brace = np.zeros_like(seam)
    if braced and design.wing.joint.brace is not None:
        brace = _brace(design, airframe, stock, figures, temperature)
    # At the centre the tape lies under the seam only, elsewhere on both faces.
    over = np.zeros_like(seam) if station == 0 else np.asarray(tape)
    found = (np.asarray(value).ravel() for value in (seam, tape, brace, seam_down, over))
    return JointStrength(*found)


def _brace(
    design: Design, airframe: Airframe, stock: Stock, figures: Figures, temperature: float
) -> Array:
    joint = design.wing.joint
    name = joint.brace or ""
    half = 0.5 * joint.brace_length
    last = airframe.wing.panels
    reach = sum(math.hypot(p.tip[1] - p.root[1], p.tip[2] - p.root[2]) for p in last)
    if half > reach:
        raise ModelError(
            f"The brace is {2000 * half:.0f}\u00a0mm long, the wing only "
            f"{2000 * reach:.0f}\u00a0mm."
        )
    t = airframe.board_thickness
    tall = spar_size(design.wing, t)[0] or t
    height = tall if joint.brace_height is None else min(joint.brace_height, 2.0 * tall)
    shear = glue_shear(figures, joint.glue, temperature)
    if name in stock.plies:
        wide = figures[f"ply.{name}.thickness"]
        own = figures[f"ply.{name}.strength"] * wide * height**2 / 6.0
    else:
        rod = stock.rods[name]
        height = rod.height
        inertia = rod_second_moment(
            rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round
        )
        own = rod_moment(figures[f"rod.{name}.strength"], inertia, height=rod.height)
    if half <= 0.0:
        return np.zeros_like(shear)
    patch = torsion_patch_moment(shear, length=half, height=height)
    return np.minimum(own, patch)
