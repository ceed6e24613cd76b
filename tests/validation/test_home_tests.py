"""Strip of board on two edges: from the reading of a home test back to the paper.

ASTM C393/C393M three-point facing stress; H. G. Allen 1969 eq. 2.1 for the sag.
"""

from foamwright.stock.home_tests import crease_strength, sag_modulus

GRAVITY = 9.80665
STRIP = {"width": 0.05, "paper": 0.13e-3}


def test_crease(reproduce):
    # 2 N in the middle of 300 mm stress the papers of a 4.5 mm core to 4.98422 MPa.
    reproduce(
        "paper stress of a strip under 2 N on 300 mm, from the reading, Pa",
        computed=crease_strength(2.0 / GRAVITY, 0.3, thickness=4.76e-3, **STRIP),
        printed=4.98422e6,
        rel=1e-3,
        source="ASTM C393/C393M",
    )


def test_sag(reproduce):
    # The same strip of papers of 3.5 GPa sags 4.55565 mm in bending; foam adds stiffness of its
    # own (1.2 %), which the reading takes for paper.
    reproduce(
        "paper modulus back from a sag of 4.55565 mm under 2 N, Pa",
        computed=sag_modulus(2.0 / GRAVITY, 4.55565e-3, span=0.3, thickness=4.76e-3, **STRIP),
        printed=3.5e9,
        rel=2e-2,
        source="Allen 1969 eq. 2.1",
    )
