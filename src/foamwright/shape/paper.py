"""What the papers of a board stand when it is bent."""

from foamwright.core.errors import ModelError

# How many times its elastic crushing strain the inner paper takes before a bend turns into a
# wrinkle of its own: paper yields long before it folds; assumed, perhaps 2 to 5.
YIELDS = 3.0


def paper_radius(thickness: float, *, modulus: float, strength: float) -> float:
    """Tightest bend that the inner paper of a board stands without a crease.

    Strain of a face = (t/2)/R, so R = t E / (2 n sigma) with n = 3 for yielding.

    Args:
        thickness: Of the board. [m]
        modulus: Of the paper. [Pa]
        strength: Of the paper, crushed along its plane. [Pa]

    Returns:
        Radius. [m]

    Valid:
        Both papers on; a board with its inner paper peeled stands far tighter bends.

    Raises:
        ModelError: A value is not above zero.

    Source:
        Bending of a sandwich, any text; the factor for yielding is assumed.

    Example:
        >>> round(paper_radius(0.005, modulus=3.5e9, strength=10e6), 3)
        0.292
    """
    if min(thickness, modulus, strength) <= 0.0:
        raise ModelError("Thickness, modulus and strength of a paper must be above zero.")
    return 0.5 * thickness * modulus / (YIELDS * strength)
