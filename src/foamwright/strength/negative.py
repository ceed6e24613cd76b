"""The wing the other way: pushed, upside down, or its own mass in a hard landing."""

import numpy as np
from numpy.typing import NDArray

from foamwright.strength.buckling import panel_buckling_load
from foamwright.strength.cases import Figures
from foamwright.strength.sandwich import wrinkling_stress
from foamwright.strength.wing import NEVER, Bending, board_stiffness, strength_over_stress
from foamwright.strength.wing_section import WingSections

type Array = NDArray[np.float64]

WORDS = {
    "crushing": "bottom paper creases",
    "wrinkling": "bottom paper wrinkles on the foam",
    "tension": "top paper tears",
    "buckling": "bottom skin buckles behind the spar",
    "foam": "bottom foam crushes",
}


def negative_limits(
    sections: WingSections, figures: Figures, *, bending: Bending
) -> dict[str, Array]:
    """Load factor, as a size, at which each thing gives with the tips bent down.

    The same strains as under positive g with the sign turned: the bottom is pressed, the top
    pulled. The bottom skin is taken to be held along the same lines as the top one.

    Args:
        sections: The wing's sections. [-]
        figures: Doubted figures. [-]
        bending: For one positive g. [-]

    Returns:
        Word -> load factors (builds, stations). [-]

    Valid:
        As for positive g. The bottom is flat, so that flat panels are the right model there.

    Source:
        Transformed section, [HOFF] wrinkling, [TIMOSHENKO] panels.

    Example:
        >>> sorted(negative_limits(sections, figures, bending=b))
        ['buckling', 'crushing', 'tension', 'wrinkling']
    """
    curvature, axis, scale = bending.curvature, bending.axis, bending.scale
    skins = [g for g in sections.groups if g.kind == "paper"]
    high = np.max([g.high for g in skins], axis=0) * scale
    low = np.min([g.low for g in skins], axis=0) * scale
    press, pull = curvature * (axis - low), curvature * (high - axis)
    if not sections.faces:
        foam = figures["board.core_modulus"]
        crush = figures["board.core_compressive_strength"]
        return {"foam": strength_over_stress(crush, foam * press)}
    modulus = figures["board.paper_modulus"]
    wrinkle = wrinkling_stress(
        modulus,
        figures["board.core_modulus"],
        core_shear_modulus=figures["board.core_shear_modulus"],
    )
    crush, tear = (
        figures["board.paper_compressive_strength"],
        figures["board.paper_tensile_strength"],
    )
    limits = {
        "crushing": strength_over_stress(crush, modulus * press),
        "wrinkling": strength_over_stress(np.asarray(wrinkle), modulus * press),
        "tension": strength_over_stress(tear, modulus * pull),
    }
    if sections.panels:
        limits["buckling"] = _buckling(sections, figures, bending, low)
    return limits


def _buckling(sections: WingSections, figures: Figures, bending: Bending, low: Array) -> Array:
    stiffness = board_stiffness(sections, figures)
    depth = figures["board.thickness"]
    shear = figures["board.core_shear_modulus"] * depth
    carry = (
        sections.faces * figures["board.paper_modulus"] * figures["board.paper_thickness"]
        + figures["board.core_modulus"] * depth
    )
    strain = bending.curvature * (bending.axis - low - 0.5 * depth)
    worst = np.full(bending.curvature.shape, NEVER)
    for panel in sections.panels:
        flat = panel_buckling_load(stiffness, panel.width)
        critical = np.asarray(1.0 / (1.0 / flat + 1.0 / shear))
        worst = np.minimum(worst, strength_over_stress(critical, carry * strain))
    return worst
