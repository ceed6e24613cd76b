"""Which section a wing has at a chord, and the plates of the tail."""

from functools import lru_cache

from foamwright.design.model import Wing
from foamwright.shape.folded import DEFAULT_CREASES, FoldedRecipe, folded_section, panel_recipe
from foamwright.shape.layered import layered_section
from foamwright.shape.model import WingSection


def spar_size(wing: Wing, board_thickness: float) -> tuple[float, float]:
    """Height and width of the spar that the board strips make.

    Laid flat the layers pile up; on edge they stand side by side.

    Args:
        wing: The wing of the design. [-]
        board_thickness: [m]

    Returns:
        Height and width; (0, 0) without strips. [m], [m]

    Source:
        Definition of the build.

    Example:
        >>> from types import SimpleNamespace as N
        >>> spar_size(N(spar=N(strips=2, strip_width=0.025, laid="flat")), 0.005)
        (0.01, 0.025)
    """
    spar = wing.spar
    if spar.strips == 0:
        return 0.0, 0.0
    pile = spar.strips * board_thickness
    return (pile, spar.strip_width) if spar.laid == "flat" else (spar.strip_width, pile)


def wing_section(
    wing: Wing, chord: float, board_thickness: float, *, taper: tuple[float, float] | None = None
) -> WingSection:
    """Section of the wing at one chord.

    Args:
        wing: The wing of the design. [-]
        chord: [m]
        board_thickness: [m]
        taper: Root and tip chord of its panel, whose creases must be the same all along. [m]

    Returns:
        The section.

    Raises:
        DesignError: The section cannot be built.

    Source:
        Definition; see folded_section and layered_section.

    Example:
        >>> wing_section(design.wing, 0.19, 0.005).build
        'folded'
    """
    if wing.build == "folded":
        height, width = spar_size(wing, board_thickness)
        spread = wing.crease_positions is None
        recipe = FoldedRecipe(
            creases=DEFAULT_CREASES[wing.creases] if spread else wing.crease_positions or (),
            spread=spread,
            bevel=wing.bevel,
            spar_height=height,
            spar_width=width,
            spar_position=wing.spar.position,
            target=wing.target,
        )
        if taper is not None and taper[0] != taper[1]:
            recipe = _panel(recipe, taper[0], taper[1], thickness=board_thickness)
        return _folded(recipe, chord, board_thickness)
    steps = wing.steps if wing.build == "stepped" else ()
    return _layered(wing.build, chord, board_thickness, steps=steps, bevel=wing.bevel or 0.0)


def plate_section(chord: float, thickness: float) -> WingSection:
    """Section of a flat tail surface.

    Args:
        chord: [m]
        thickness: Of all layers. [m]

    Returns:
        A plate with half-round leading edge and square trailing edge.

    Source:
        Definition; see layered_section.

    Example:
        >>> plate_section(0.1, 0.005).camber_ratio
        0.0
    """
    return _layered("plate", chord, thickness)


_panel = lru_cache(maxsize=64)(panel_recipe)
_folded = lru_cache(maxsize=256)(folded_section)
_layered = lru_cache(maxsize=256)(layered_section)
