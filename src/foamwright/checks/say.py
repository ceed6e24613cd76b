"""Numbers in the design's units, for the sentences of the checks."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from foamwright.core.units import format_value

if TYPE_CHECKING:
    from foamwright.plane import Plane


def say(plane: Plane, value: float, dimension: str) -> str:
    """A value in the units the design speaks.

    Args:
        plane: The plane. [-]
        value: SI. [any]
        dimension: Such as "length", "mass", "speed", "angle". [-]

    Returns:
        Text such as "14.25 in".

    Source:
        Definition.

    Example:
        >>> say(plane, 0.05, "length")
        '1 31/32 in'
    """
    return format_value(value, dimension, plane.design.units)


def degrees(angle: float, *, digits: int = 1) -> str:
    """An angle in degrees.

    Args:
        angle: [rad]
        digits: Behind the point. [-]

    Returns:
        Text such as "3.5 deg".

    Source:
        Definition.

    Example:
        >>> degrees(0.0611)
        '3.5 deg'
    """
    return f"{math.degrees(angle):.{digits}f} deg"


def percent(share: float) -> str:
    """A share in percent.

    Args:
        share: [-]

    Returns:
        Text such as "12 %".

    Source:
        Definition.

    Example:
        >>> percent(0.123)
        '12 %'
    """
    return f"{100.0 * share:.0f} %"


def loading(plane: Plane, value: float) -> str:
    """A wing loading in the units the design speaks.

    Args:
        plane: The plane. [-]
        value: [kg/m²]

    Returns:
        Text such as "28.5 g/dm²" or "9.3 oz/ft²".

    Source:
        Definition.

    Example:
        >>> loading(plane, 2.85)
        '9.3 oz/ft²'
    """
    return say(plane, value, "areal mass")


def minutes(time: float) -> str:
    """A time in minutes and seconds.

    Args:
        time: [s]

    Returns:
        Text such as "7 min 30 s".

    Source:
        Definition.

    Example:
        >>> minutes(450.0)
        '7 min 30 s'
    """
    whole = round(time / 10.0) * 10
    return f"{whole // 60} min {whole % 60} s" if whole % 60 else f"{whole // 60} min"
