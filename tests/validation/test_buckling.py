"""Buckling of rods and panels.

Timoshenko & Gere, Theory of Elastic Stability; Roark's Formulas for Stress and Strain, ch. 15
(formulas from memory, worked figures).
"""

import math

from foamwright.strength.buckling import euler_load, panel_buckling_load
from foamwright.strength.sandwich import one_face_stiffness


def test_rod(reproduce):
    reproduce(
        "Euler load of 1.19 mm steel wire free over 120 mm, N",
        computed=euler_load(207e9 * math.pi * 1.19e-3**4 / 64.0, 0.12),
        printed=13.9658,
        rel=1e-3,
        source="Roark ch. 15 (from memory)",
    )


def test_panel(reproduce):
    stiffness = one_face_stiffness(
        face_modulus=3.5e9, face_thickness=0.13e-3, core_modulus=8e6, core_thickness=4.5e-3
    )
    reproduce(
        "buckling load of a 119 mm wide board panel with one paper, N/m",
        computed=panel_buckling_load(stiffness, 0.119),
        printed=669.572,
        rel=1e-3,
        source="Timoshenko & Gere; Roark table 15.2 case 1 (from memory)",
    )
