"""Pull of rubber bands.

L. A. Wood, J. Res. Nat. Bur. Stand. 82 (1977) 57-63: formula and constant A read, modulus from
memory.
"""

import pytest

from foamwright.strength.rubber import band_pull, rubber_stress

SOURCE = "Wood 1977, A = 0.38, M = 1.2 MPa"


@pytest.mark.parametrize(("stretch", "printed"), [(2.0, 530.48e3), (4.0, 935.518e3)])
def test_stress(reproduce, stretch, printed):
    reproduce(
        f"pull over free area at stretch {stretch:.0f}, Pa",
        computed=float(rubber_stress(stretch, 1.2e6)),
        printed=printed,
        rel=1e-3,
        source=SOURCE,
    )


def test_band(reproduce):
    pull = float(band_pull(3.0, 1.2e6, width=6.35e-3, thickness=0.79e-3))
    reproduce(
        "pull of one No. 64 band at stretch 3, both strands, N",
        computed=pull,
        printed=7.37029,
        rel=1e-2,
        source=SOURCE,
    )
    # Each band pulls at both its ends; safety 2 on 6 g of 0.5 kg.
    reproduce(
        "bands for 6 g of 0.5 kg with a safety of two",
        computed=2.0 * 6.0 * 0.5 * 9.80665 / (2.0 * pull),
        printed=3.99169,
        rel=1e-2,
        source=SOURCE,
    )
