"""Foam board as a sandwich.

H. G. Allen, Analysis and Design of Structural Sandwich Panels (1969); D. Zenkert, An Introduction
to Sandwich Construction (1995); ASTM C393; N. J. Hoff and S. E. Mautner, J. Aero. Sci. 12 (1945)
285-297 (formulas from memory, worked figures).
"""

from foamwright.strength.sandwich import (
    WRINKLING_THEORY,
    bare_stiffness,
    sandwich_stiffness,
    shear_stiffness,
    three_point_deflection,
    three_point_facing_stress,
    wrinkling_stress,
)

ALLEN = "Allen 1969 eq. 2.1, Zenkert 1995 ch. 3 (from memory)"
HOFF = "Hoff & Mautner 1945 (from memory)"
BOARD = {
    "face_modulus": 3.5e9,
    "face_thickness": 0.13e-3,
    "core_modulus": 8e6,
    "core_thickness": 4.5e-3,
}


def test_bending(reproduce):
    stiffness = sandwich_stiffness(**BOARD)
    for words, computed, printed in (
        ("bending stiffness of a 50 mm strip of board, N m²", 0.05 * stiffness, 0.246946),
        ("bending stiffness of board per width, N m", stiffness, 4.93893),
        (
            "the same with both papers peeled, N m",
            bare_stiffness(core_modulus=8e6, core_thickness=4.5e-3),
            0.06075,
        ),
        (
            "bending part of its sag over 300 mm under 2 N, m",
            three_point_deflection(2.0, 0.3, stiffness=0.246946, shear=1e12),
            4.55565e-3,
        ),
    ):
        reproduce(words, computed=computed, printed=printed, rel=1e-3, source=ALLEN)


def test_shear(reproduce):
    shear = shear_stiffness(
        core_shear_modulus=3e6, width=0.05, core_thickness=4.5e-3, face_thickness=0.13e-3
    )
    reproduce(
        "shear part of the sag of the same strip, m",
        computed=three_point_deflection(2.0, 0.3, stiffness=1e12, shear=shear),
        printed=0.209918e-3,
        rel=1e-3,
        source=ALLEN,
    )


def test_papers(reproduce):
    reproduce(
        "stress in the papers of the same strip, Pa",
        computed=three_point_facing_stress(
            2.0, 0.3, width=0.05, core_thickness=4.5e-3, face_thickness=0.13e-3
        ),
        printed=4.98422e6,
        rel=1e-3,
        source="ASTM C393/C393M (from memory)",
    )
    reproduce(
        "wrinkling stress of the paper for design, Pa",
        computed=wrinkling_stress(3.5e9, 8e6, core_shear_modulus=3e6),
        printed=21.8976e6,
        rel=1e-3,
        source=HOFF,
    )
    reproduce(
        "wrinkling stress of a perfect face, Pa",
        computed=wrinkling_stress(3.5e9, 8e6, core_shear_modulus=3e6, coefficient=WRINKLING_THEORY),
        printed=39.8536e6,
        rel=1e-3,
        source=HOFF,
    )
