"""Span load after Schrenk.

O. Schrenk, NACA TM 948 (1940): mean of the chord and of the ellipse.
"""

import numpy as np
import pytest

from foamwright.core.air import GRAVITY
from foamwright.strength.loads import schrenk, schrenk_centre, span_load

SOURCE = "Schrenk, NACA TM 948"


@pytest.mark.parametrize(("taper", "printed"), [(1.0, 0.462207), (0.5, 0.434429)])
def test_centre(reproduce, taper, printed):
    reproduce(
        f"centre of the half wing's lift, taper {taper}",
        computed=schrenk_centre(taper),
        printed=printed,
        rel=1e-4,
        source=SOURCE,
    )
    # The same from the summed span load: bending moment at the root over the half lift.
    places = np.sin(np.linspace(0.0, 0.5 * np.pi, 2001))  # close steps at the tip
    chords = 1.0 + (taper - 1.0) * places
    load = span_load(places, chords, mass=2.0 / GRAVITY, wing_mass=0.0)
    reproduce(
        f"centre of the half wing's lift by summation, taper {taper}",
        computed=float(load.moment[0] / load.shear[0]),
        printed=printed,
        rel=1e-4,
        source=SOURCE,
    )


def test_middle(reproduce):
    reproduce(
        "lift per span in the middle of a rectangular wing over its mean",
        computed=float(schrenk(np.array([0.0]), np.array([1.0]))[0]),
        printed=1.13662,
        rel=1e-4,
        source=SOURCE,
    )
