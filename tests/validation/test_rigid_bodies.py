"""Centre of gravity and moments of inertia of simple bodies.

Meriam & Kraige, Engineering Mechanics: Dynamics, table D/4 (from memory): closed forms.
"""

import math

import pytest
import shapely

from foamwright.balance.mass import balance_of
from foamwright.core.bands import Band
from foamwright.parts.model import Facet, Item, Part, PartsList, Source

SOURCE = "Meriam & Kraige, Dynamics, table D/4 (from memory)"
X, Y = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)


def of_plate(polygon, thickness=0.0, areal=1.0):
    facet = Facet(polygon, (0.0, 0.0, 0.0), X, Y, thickness)
    part = Part(
        "p", "p", "p", "", "b", Source.BOARD, polygon, (), (facet,), Band.exact(areal), thickness
    )
    return balance_of(PartsList((part,), ()), tray=(0.0, 1.0))


@pytest.mark.parametrize(
    ("name", "axis", "printed"),
    [
        ("rectangle 0.6 x 0.2 m, about its length", 0, 0.2**2 / 12),
        ("rectangle 0.6 x 0.2 m, about its width", 1, 0.6**2 / 12),
        ("rectangle 0.6 x 0.2 m, about its normal", 2, (0.6**2 + 0.2**2) / 12),
    ],
)
def test_plate(reproduce, name, axis, printed):
    plane = of_plate(shapely.box(0.3, -0.1, 0.9, 0.1))
    reproduce(
        f"I / m of a {name}",
        computed=plane.inertia[axis] / plane.all_up_mass,
        printed=printed,
        rel=1e-3,
        source=SOURCE,
    )


def test_triangle(reproduce):
    plane = of_plate(shapely.Polygon([(0, 0), (0.3, 0), (0, 0.6)]))
    mass = plane.all_up_mass
    reproduce(
        "x of a triangle's centroid, h/3",
        computed=plane.cg[0],
        printed=0.1,
        rel=1e-3,
        source=SOURCE,
    )
    reproduce(
        "I / m of a triangle about an axis along its base, h²/18",
        computed=plane.inertia[1] / mass,
        printed=0.3**2 / 18,
        rel=1e-3,
        source=SOURCE,
    )
    reproduce(
        "I / m of a right triangle about its normal, (b² + h²)/18",
        computed=plane.inertia[2] / mass,
        printed=(0.3**2 + 0.6**2) / 18,
        rel=1e-3,
        source=SOURCE,
    )


def test_disc(reproduce):
    turn = [2 * math.pi * i / 720 for i in range(720)]
    plane = of_plate(shapely.Polygon([(0.1 * math.cos(a), 0.1 * math.sin(a)) for a in turn]))
    reproduce(
        "I / m of a disc about its axis, r²/2",
        computed=plane.inertia[2] / plane.all_up_mass,
        printed=0.1**2 / 2,
        rel=1e-3,
        source=SOURCE,
    )


def test_box_and_rod(reproduce):
    box = Item("box", "box", "", Band.exact(0.145), (0.1, 0, 0), (0.106, 0.034, 0.025))
    plane = balance_of(PartsList((), (box,)), tray=(0, 1))
    reproduce(
        "I / m of a box about its long axis, (b² + h²)/12",
        computed=plane.inertia[0] / 0.145,
        printed=(0.034**2 + 0.025**2) / 12,
        rel=1e-3,
        source=SOURCE,
    )
    rod = Item("rod", "rod", "", Band.exact(0.02), (0.5, 0, 0), (1.0, 0.0, 0.0))
    ball = Item("ball", "ball", "", Band.exact(0.02), (1.5, 0, 0), (0.0, 0.0, 0.0))
    plane = balance_of(PartsList((), (rod, ball)), tray=(0, 1))
    reproduce(
        "I of a 1 m rod and a point of the same mass 1 m from its middle, m(1/12 + 1/2)",
        computed=plane.inertia[1] / 0.02,
        printed=1 / 12 + 1 / 2,
        rel=1e-3,
        source=SOURCE,
    )
