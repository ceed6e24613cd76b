"""Tail volumes, downwash and neutral point against handbooks and worked examples."""

import pytest

from airframes import plate, surface
from foamwright.aero.lattice import solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.second import (
    downwash_datcom,
    downwash_far,
    neutral_point_algebra,
    tail_volume,
)

DATCOM = "USAF DATCOM 4.4.1 (formula from memory), values recomputed"


@pytest.mark.parametrize(
    ("aspect", "arm", "value"),
    [(6, 3.0, 0.361), (5, 2.5, 0.425), (6, 2.5, 0.388), (8, 3.0, 0.309)],
)
def test_downwash_handbook(reproduce, aspect, arm, value):
    ours = downwash_datcom(aspect, taper=1.0, arm=arm / aspect)
    reproduce(
        f"handbook downwash slope, AR {aspect}, {arm} chords behind",
        computed=ours,
        printed=value,
        rel=0.003,
        source=DATCOM,
    )


@pytest.mark.parametrize(
    ("aspect", "arm", "value"),
    [
        (4, 2.0, 0.571),
        (5, 2.5, 0.484),
        (6, 2.0, 0.465),
        (6, 3.0, 0.417),
        (6, 4.0, 0.397),
        (8, 3.0, 0.348),
    ],
)
def test_downwash_lattice(reproduce, aspect, arm, value):
    wing = surface("wing", (0.0, 0.0, 0.0), span=aspect, chords=(1.0, 1.0), section=plate(1.0))
    tail = 0.2
    stab = surface(
        "stab",
        (0.25 + arm - 0.75 * tail, 0.0, 0.0),
        span=0.34 * aspect,
        chords=(tail, tail),
        section=plate(tail),
    )
    solution = solve_surfaces([wing, stab], [Fineness(16, 5), Fineness(8, 3)])
    (felt,), (own,) = solution.select("alpha", 0), solution.select("alpha", 1)
    ours = -solution.forces[felt, 0, 1, 2] / solution.forces[own, 0, 1, 2]
    reproduce(
        f"lattice downwash slope in the wing's plane, AR {aspect}, {arm} chords behind",
        computed=ours,
        printed=value,
        rel=0.04,
        source="vortex lattice, flat wake, worked out for the reference set",
    )


def test_downwash_far(reproduce):
    reproduce(
        "far-field downwash slope, AR 6.06, a = 4.3",
        computed=downwash_far(4.3, 6.06),
        printed=0.452,
        rel=0.002,
        source="Nelson, Flight Stability, ch. 2",
    )


def test_neutral_point_example(reproduce):
    ours = neutral_point_algebra(
        wing_centre=0.25,
        wing_slope=4.3,
        tail_slope=3.91,
        volume=0.66,
        downwash=0.45,
        body_moment=0.12,
    )
    reproduce(
        "neutral point of a general-aviation airplane (chords)",
        computed=ours,
        printed=0.552,
        rel=0.005,
        source="after Nelson, Flight Stability, ch. 2; inputs from memory",
    )


def test_tail_volumes_of_a_micro_airplane(reproduce):
    source = "0.73 m research foam airplane, published geometry"
    reproduce(
        "horizontal tail volume",
        source=source,
        printed=0.501,
        rel=0.005,
        computed=tail_volume(0.0085, 0.242, wing_area=0.054, length=0.076),
    )
    reproduce(
        "vertical tail volume",
        source=source,
        printed=0.0264,
        rel=0.005,
        computed=tail_volume(0.0043, 0.242, wing_area=0.054, length=0.730),
    )


# class, horizontal, vertical: Raymer, Aircraft Design, tail volume table (horizontal from memory)
RAYMER = [
    ("sailplane", 0.50, 0.02),
    ("homebuilt", 0.50, 0.04),
    ("general aviation single", 0.70, 0.04),
    ("agricultural", 0.50, 0.04),
    ("jet transport", 1.00, 0.09),
]


@pytest.mark.parametrize(("kind", "horizontal", "vertical"), RAYMER)
def test_tail_volume_definition(reproduce, kind, horizontal, vertical):
    """A tail sized by Raymer's formula from the table must give the table's coefficient back."""
    wing_area, chord, span, arm = 0.23, 0.197, 1.168, 0.55
    stab, fin = horizontal * chord * wing_area / arm, vertical * span * wing_area / arm
    source = "Raymer, Aircraft Design, tail volume table"
    reproduce(
        f"{kind}: horizontal",
        source=source,
        printed=horizontal,
        rel=1e-6,
        computed=tail_volume(stab, arm, wing_area=wing_area, length=chord),
    )
    reproduce(
        f"{kind}: vertical",
        source=source,
        printed=vertical,
        rel=1e-6,
        computed=tail_volume(fin, arm, wing_area=wing_area, length=span),
    )
