"""Peak shear stress in lap joints.

O. Volkersen, Luftfahrtforschung 15 (1938); da Silva et al. 2009 (formula from memory, worked
figures).
"""

import pytest

from foamwright.strength.joint import volkersen_peak


@pytest.mark.parametrize(
    ("words", "overlap", "glue", "layer", "stiffness", "printed"),
    [
        ("hot glue 0.5 mm between 1/16 in ply", 0.025, 5e6, 0.5e-3, 9.5e9 * 1.59e-3, 1.06803),
        ("epoxy 0.1 mm between 1 mm carbon", 0.0127, 1e9, 0.1e-3, 130e9 * 1e-3, 2.52511),
    ],
)
def test_peak(reproduce, words, overlap, glue, layer, stiffness, printed):
    reproduce(
        f"peak over mean shear, {words}, {1000 * overlap:g} mm lap",
        computed=volkersen_peak(
            overlap, glue_modulus=glue, glue_thickness=layer, stiffness=stiffness
        ),
        printed=printed,
        rel=1e-3,
        source="Volkersen 1938 (from memory)",
    )


def test_longer_lap(reproduce):
    def peak_for_one_newton(lap):
        ratio = volkersen_peak(lap, glue_modulus=1e9, glue_thickness=0.2e-3, stiffness=70e9 * 2e-3)
        return ratio / lap

    reproduce(
        "peak shear of a 25 mm over a 50 mm lap, 2 mm aluminium, same load",
        computed=peak_for_one_newton(0.025) / peak_for_one_newton(0.050),
        printed=1.003,
        rel=1e-3,
        source="worked example in open code, 1.003",
    )
