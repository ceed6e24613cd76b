"""Round pieces cut to length: dowels and pins."""

import numpy as np
from numpy.typing import NDArray

from foamwright.parts.material import rod_areal_mass
from foamwright.parts.model import Source
from foamwright.parts.piece import Piece, rectangle
from foamwright.parts.wing_frame import bar
from foamwright.stock.model import RodStock

PIN_LENGTH = 0.06  # m of pins, half of it in each of the pieces they join; common practice
PIN_ROD = "bamboo skewer 3 mm"

type Array = NDArray[np.float64]


def peg(rod: RodStock, id: str, ends: tuple[Array, Array], *, name: str, notes: str) -> Piece:
    """A dowel or pin from one place to another.

    Args:
        rod: What it is cut from. [-]
        id: Unique short name. [-]
        ends: The middles of its two ends. [m]
        name: In trade words, of its kind too. [-]
        notes: For the builder. [-]

    Returns:
        The piece, drawn as the rectangle that its side shows.

    Source:
        Geometry.

    Example:
        >>> rod = stock.rods["bamboo skewer 3 mm"]
        >>> ends = (np.zeros(3), np.array([0.06, 0.0, 0.0]))
        >>> peg(rod, "fin-pin-1", ends, name="fin pin", notes="").ring[2].tolist()
        [0.06, 0.003]
    """
    start, end = ends
    length = float(np.hypot.reduce(end - start))
    ring = rectangle(length, rod.width)
    along = (end - start) / length
    # Any direction square to it will do; the plane's own up, or forward for an upright one.
    side = np.array([0.0, 0.0, 1.0]) if abs(along[2]) < 0.9 else np.array([-1.0, 0.0, 0.0])
    return Piece(
        id=id,
        name=name,
        kind=name,
        stock=rod.name,
        source=Source.LENGTH,
        ring=ring,
        areal_mass=rod_areal_mass(rod),
        thickness=rod.height,
        flats=(bar(start, end, ring, width_to=side, thickness=rod.height),),
        notes=notes,
    )
