"""Pack and propeller masses: parts list and power room weigh from the same formula in stock."""

import pytest

from foamwright.design.model import Pack, Propeller
from foamwright.parts.estimates import pack_mass, propeller_mass
from foamwright.power.pack import pack_of
from foamwright.power.propeller import propeller_of


@pytest.mark.parametrize("cells", [1, 2, 3, 4])
@pytest.mark.parametrize("capacity", [1080.0, 4680.0, 7920.0])
def test_pack(cells, capacity):
    mine = pack_mass(Pack.model_construct(cells=cells, capacity=capacity))
    theirs = pack_of(cells, capacity).mass
    assert (mine.low, mine.typical, mine.high) == pytest.approx(
        (theirs.low, theirs.typical, theirs.high)
    )


@pytest.mark.parametrize("kind", ["slow flight", "electric", "sport", "folding", "direct drive"])
@pytest.mark.parametrize("diameter", [0.1524, 0.2286, 0.2794])
def test_propeller(kind, diameter):
    mine = propeller_mass(Propeller.model_construct(kind=kind, diameter=diameter))
    theirs = propeller_of(kind, diameter, pitch=0.5 * diameter, blades=2).mass
    assert (mine.low, mine.typical, mine.high) == pytest.approx(
        (theirs.low, theirs.typical, theirs.high)
    )
