"""The balance point against the place of the pack."""

from dataclasses import dataclass

import numpy as np

from foamwright.balance.model import Balance

POINTS = 25


@dataclass(frozen=True, slots=True)
class PackCurve:
    """Where the plane balances with the pack at each place of its tray.

    Attributes:
        places: Of the pack's middle, front to back. [m]
        cg: Balance point. [m]
        low: One build in ten balances ahead of it. [m]
        high: One build in ten balances behind it. [m]
    """

    places: tuple[float, ...]
    cg: tuple[float, ...]
    low: tuple[float, ...]
    high: tuple[float, ...]


def cg_over_pack(balance: Balance) -> PackCurve:
    """The balance point over the whole tray, with its band.

    A straight line, x_cg = x_front + (x_pack - tray front) m_pack / m.

    Args:
        balance: With the pack where the design puts it. [-]

    Returns:
        The line; the band is that of the design's own place.

    Source:
        Definition of the centre of gravity.

    Example:
        >>> cg_over_pack(plane.balance).cg[0] == plane.balance.cg_front
        True
    """
    share = np.linspace(0.0, 1.0, POINTS)
    places = balance.pack_front + share * (balance.pack_back - balance.pack_front)
    cg = balance.cg_front + share * (balance.cg_back - balance.cg_front)
    band = balance.cg_x_band
    return PackCurve(
        tuple(places.tolist()),
        tuple(cg.tolist()),
        tuple((cg + band.low - band.typical).tolist()),
        tuple((cg + band.high - band.typical).tolist()),
    )
