"""What is stuck to the outside of a profile fuselage, or lies inside a box."""

from foamwright.design.model import Design
from foamwright.parts.estimates import pack_size
from foamwright.shape.body import width_at
from foamwright.shape.model import Airframe, Vector


def beside(design: Design, airframe: Airframe, x: float, thick: float) -> float:
    """How far from the plane of symmetry the middle of something stuck to the side lies.

    Half the fuselage's width there and half the thing; nothing in a box, where it lies inside.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        x: Its middle, aft of the nose. [m]
        thick: Of the thing, square to the side. [m]

    Returns:
        Distance, without sign. [m]

    Source:
        Geometry.

    Example:
        >>> round(beside(design, airframe, 0.1, 0.02), 4)
        0.0267
    """
    if design.fuselage.build != "profile":
        return 0.0
    return 0.5 * width_at(airframe.body, x) + 0.5 * thick


def pack_box(design: Design) -> Vector:
    """Box around the pack; against the side of a profile its flat face lies on the board.

    Args:
        design: The design. [-]

    Returns:
        Along x, y, z. [m]

    Source:
        Common practice.

    Example:
        >>> [round(x, 4) for x in pack_box(design)]
        [0.0792, 0.0249, 0.0377]
    """
    long, wide, tall = pack_size(design.pack)
    return (long, tall, wide) if design.fuselage.build == "profile" else (long, wide, tall)


def pack_side(design: Design, airframe: Airframe) -> float:
    """Side place of the pack's middle: strapped to the right of a profile, in the middle of a box.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        To the right of the plane of symmetry. [m]

    Source:
        Common practice.

    Example:
        >>> round(pack_side(design, airframe), 4)
        0.0291
    """
    return beside(design, airframe, design.pack.position, pack_box(design)[1])
