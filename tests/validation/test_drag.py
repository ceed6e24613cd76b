"""Friction, blunt edges and flat plates against handbook drag figures."""

import math

import pytest

from foamwright.aero.plates import (
    base_drag,
    laminar_friction,
    low_aspect_lift,
    plate_drag,
    turbulent_friction_mean,
)

HOERNER = "Hoerner, Fluid-Dynamic Drag, ch. 3 (from memory)"
PLATES = "Pelletier & Mueller, J. Aircraft 37(5), 2000, read off by others to 0.05"


@pytest.mark.parametrize(
    ("reynolds", "value"), [(60e3, 0.00542), (100e3, 0.00420), (200e3, 0.00297)]
)
def test_laminar(reproduce, reynolds, value):
    reproduce(
        f"laminar plate, Re {reynolds:.0f}: Cf",
        computed=laminar_friction(reynolds),
        printed=value,
        rel=0.005,
        source="Blasius",
    )


@pytest.mark.parametrize(("reynolds", "value"), [(100e3, 0.00716), (200e3, 0.00615)])
def test_turbulent(reproduce, reynolds, value):
    reproduce(
        f"turbulent plate, Re {reynolds:.0f}: Cf",
        computed=turbulent_friction_mean(reynolds),
        printed=value,
        rel=0.01,
        source="Prandtl-Schlichting",
    )


@pytest.mark.parametrize(("height", "value"), [(0.010, 0.0011), (0.028, 0.0042), (0.056, 0.0107)])
def test_blunt_edge(reproduce, height, value):
    reproduce(
        f"blunt trailing edge h/c {height} on Cd0 0.020: extra Cd",
        computed=base_drag(height, 0.020),
        printed=value,
        rel=0.05,
        source=HOERNER,
    )


@pytest.mark.parametrize(
    ("aspect", "degrees", "lift"),
    [(2.0, 6.0, 0.30), (2.0, 8.0, 0.40), (2.0, 10.0, 0.50), (1.0, 15.0, 0.50)],
)
def test_low_aspect_plates(reproduce, aspect, degrees, lift):
    reproduce(
        f"flat plate AR {aspect:.0f}, {degrees:.0f}°, Re 140 000: CL",
        source=PLATES,
        computed=low_aspect_lift(aspect, math.radians(degrees)),
        printed=lift,
        rel=0.15,
    )


def test_plate_drag_at_no_lift(reproduce):
    reproduce(
        "thin plate 1.93 %, Re 140 000: CD at no lift",
        computed=plate_drag(0.0193, 0.0193, 140e3),
        printed=0.015,
        rel=0.25,
        source=PLATES,
    )
