"""Stiffness of foam from its density.

J. S. Horvath 1995 (NCHRP Report 529); L. J. Gibson and M. F. Ashby, Cellular Solids (1997), 5.13a
(from memory, worked figures).
"""

import pytest

from foamwright.strength.beams import gibson_ashby_modulus, horvath_modulus


@pytest.mark.parametrize(("density", "printed"), [(15.0, 3.75e6), (27.0, 9.15e6)])
def test_expanded(reproduce, density, printed):
    reproduce(
        f"modulus of expanded polystyrene of {density:.0f} kg/m³, Pa",
        computed=horvath_modulus(density),
        printed=printed,
        rel=1e-3,
        source="Horvath 1995 (from memory)",
    )


def test_closed_cells(reproduce):
    reproduce(
        "modulus of closed-cell polystyrene foam of 27 kg/m³, Pa",
        computed=gibson_ashby_modulus(
            27.0, solid_density=1050.0, solid_modulus=3.0e9, edge_fraction=0.8
        ),
        printed=16.6981e6,
        rel=1e-3,
        source="Gibson & Ashby 1997 eq. 5.13a (from memory)",
    )
