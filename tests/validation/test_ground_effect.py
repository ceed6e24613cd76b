"""Induced drag of a wing near the ground against Wieselsberger's interpolation.

C. Wieselsberger, Wing Resistance near the Ground (NACA TM 77, 1922): the ground takes the share
(1 - 1.32 h/b)/(1.05 + 7.4 h/b) off the induced drag, h/b from 1/15 to 1/2, h the height of the
lifting line; from memory. Worked out by hand: h/b 0.1 gives 0.868/1.79 = 0.485.
"""

import pytest

from foamwright.aero.lattice import solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.planforms import plain_wing
from foamwright.aero.wing import wing_figures


@pytest.mark.parametrize(
    ("height", "left"), [(0.07, 0.421), (0.1, 0.515), (0.15, 0.629), (0.2, 0.709), (0.3, 0.815)]
)
@pytest.mark.parametrize("aspect", [5.0, 8.0])
def test_induced_drag(reproduce, aspect, height, left):
    wing = plain_wing(span=aspect, chords=(1.0, 0.6))
    free, near = (
        wing_figures(wing, solve_surfaces([wing], [Fineness(16, 4)], ground=ground))
        for ground in (None, -height * aspect)
    )
    reproduce(
        f"AR {wing.aspect_ratio:.1f}, {height} spans above the ground: induced drag left",
        computed=near.induced_factor / free.induced_factor,
        printed=left,
        rel=0.05,
        source="[WIESELSBERGER], from memory",
    )
