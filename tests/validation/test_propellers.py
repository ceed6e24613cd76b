"""Propellers from their label against wind-tunnel measurements (University of Illinois)."""

import math

import numpy as np
import pytest

from foamwright.power.propeller import (
    propeller_coefficients,
    propeller_of,
    zero_thrust_advance,
)
from foamwright.power.sharpen import sharpen_propeller

INCH = 0.0254
SOURCE = "[UIUC-PROP] Brandt, Deters, Ananda, Selig, static and in-flight tables"
# kind, line, diameter and pitch in, rpm, CT and CP at rest; J, CT, CP at best efficiency;
# J of no thrust
MEASURED = [
    ("slow flight", "A", 10, 4.7, 6528, 0.1299, 0.0531, 0.445, 0.0562, 0.0381, 0.661),
    ("slow flight", "A", 9, 6, 6540, 0.1597, 0.0851, 0.668, 0.0614, 0.0547, 0.905),
    ("slow flight", "A", 8, 3.8, 7015, 0.1143, 0.0481, 0.434, 0.0516, 0.0356, 0.651),
    ("slow flight", "B", 10, 4.7, 6298, 0.1374, 0.0577, 0.400, 0.0591, 0.0394, 0.618),
    ("electric", "A", 10, 5, 6708, 0.0994, 0.0379, 0.473, 0.0373, 0.0265, 0.678),
    ("electric", "A", 9, 6, 6717, 0.1169, 0.0516, 0.573, 0.0431, 0.0358, 0.805),
    ("electric", "C", 9, 6, 6816, 0.1017, 0.0458, 0.503, 0.0493, 0.0396, 0.759),
    ("electric", "C", 10, 8, 6451, 0.1088, 0.0581, 0.675, 0.0470, 0.0446, 0.917),
    ("sport", "A", 8, 5, 7016, 0.0980, 0.0490, 0.513, 0.0448, 0.0390, 0.773),
    ("folding", "A", 8.5, 6, 6897, 0.1144, 0.0505, 0.578, 0.0501, 0.0408, 0.809),
    ("direct drive", "A", 9, 5, 6797, 0.1043, 0.0394, 0.399, 0.0443, 0.0288, 0.617),
]  # fmt: skip
# Limits: 90th percentile of the errors when each propeller is left out of the fit in turn (tools/
# fit_propellers.py, line known): static CT 10.8, CP 14.5, zero-thrust J 10.1 %, curves 9.4 and
# 13.4 % of the static value; after one static reading, line not told, 6.8 and 8.6 %.
BETWEEN = "a static reading does not tell the blade line for sure, and the lines bend differently"
AFTER = {
    ("slow flight A 9x6", "CT"): BETWEEN,
    ("electric C 10x8", "CP"): BETWEEN,
}
UNTWISTS = "blades of this line untwist with speed, the model takes the mean of the line"


@pytest.mark.parametrize("row", MEASURED, ids=[f"{r[0]} {r[1]} {r[2]}x{r[3]}" for r in MEASURED])
def test_propeller(reproduce, row):
    kind, line, diameter, pitch, rpm, thrust0, power0, best, thrust, power, zero = row
    propeller = propeller_of(kind, diameter * INCH, pitch=pitch * INCH, line=line)
    speed = np.array(rpm * math.pi / 30.0)
    ours = propeller_coefficients(propeller, np.array([0.0, best]), speed=speed)
    name = f"{kind} {line} {diameter:g}x{pitch:g}"
    gap = UNTWISTS if name == "slow flight B 10x4.7" else ""
    reproduce(
        f"{name}: static CT",
        computed=ours[0][0],
        printed=thrust0,
        rel=0.108,
        source=SOURCE,
    )
    reproduce(
        f"{name}: static CP",
        computed=ours[1][0],
        printed=power0,
        rel=0.145,
        source=SOURCE,
    )
    reproduce(
        f"{name}: CT at J = {best}",
        computed=ours[0][1],
        printed=thrust,
        near=0.094 * thrust0,
        source=SOURCE,
        gap=gap,
    )
    reproduce(
        f"{name}: CP at J = {best}",
        computed=ours[1][1],
        printed=power,
        near=0.134 * power0,
        source=SOURCE,
    )
    ours_zero = zero_thrust_advance(propeller, float(speed))
    reproduce(
        f"{name}: J of no thrust",
        computed=ours_zero,
        printed=zero,
        rel=0.101,
        source=SOURCE,
        gap=gap,
    )


@pytest.mark.parametrize("row", MEASURED, ids=[f"{r[0]} {r[1]} {r[2]}x{r[3]}" for r in MEASURED])
def test_after_a_static_reading(reproduce, row):
    # the line is not told; its static thrust and torque are read on the bench
    kind, line, diameter, pitch, rpm, thrust0, power0, best, thrust, power, _ = row
    metres, speed = diameter * INCH, rpm * math.pi / 30.0
    pressure = 1.2 * (rpm / 60.0) ** 2 * metres**4
    sharp = sharpen_propeller(
        propeller_of(kind, metres, pitch=pitch * INCH),
        speed=speed,
        density=1.2,
        thrust=thrust0 * pressure,
        torque=power0 * pressure * metres / (2.0 * math.pi),
    )
    ours = propeller_coefficients(sharp, np.array(best), speed=np.array(speed))
    name = f"{kind} {line} {diameter:g}x{pitch:g} after a static reading, line not told"
    for words, computed, printed, near in (
        ("CT", ours[0], thrust, 0.068 * thrust0),
        ("CP", ours[1], power, 0.086 * power0),
    ):
        reproduce(
            f"{name}: {words} at J = {best}",
            computed=computed,
            printed=printed,
            near=near,
            source=SOURCE,
            gap=AFTER.get((f"{kind} {line} {diameter:g}x{pitch:g}", words), ""),
        )


def test_band_of_unknown_line_holds_most():
    # static CT of the rows above, the line not given: 80 % band, so at least two in three inside
    inside = 0
    for kind, _, diameter, pitch, rpm, thrust0, *_ in MEASURED:
        propeller = propeller_of(kind, diameter * INCH, pitch=pitch * INCH)
        speed = np.array(rpm * math.pi / 30.0)
        ours = propeller_coefficients(propeller, np.array(0.0), speed=speed)[0]
        inside += abs(math.log(ours / thrust0)) < 1.2816 * propeller.thrust_spread
    assert inside >= 0.66 * len(MEASURED)


# Two propellers that the fit never saw: static figures worked back from a worked answer that takes
# their CT and CP at the highest rpm (about 6800) from the same tables.
UNSEEN = [
    ("electric", "A", 8, 6, 0.1181, 0.0760),
    ("slow flight", "A", 9, 4.7, 0.1199, 0.0483),
]


@pytest.mark.parametrize("row", UNSEEN, ids=[f"{r[0]} {r[2]}x{r[3]}" for r in UNSEEN])
def test_unseen_propellers(reproduce, row):
    kind, line, diameter, pitch, thrust0, power0 = row
    for told in (line, ""):
        propeller = propeller_of(kind, diameter * INCH, pitch=pitch * INCH, line=told)
        speed = np.array(6800.0 * math.pi / 30.0)
        ours = propeller_coefficients(propeller, np.array(0.0), speed=speed)
        name = f"{kind} {told + ' ' if told else ''}{diameter:g}x{pitch:g}, never in the fit"
        # the 90th percentile asked of a label
        for words, computed, printed, rel in (
            ("CT", ours[0], thrust0, 0.13),
            ("CP", ours[1], power0, 0.18),
        ):
            one_in_ten = told == "A" and kind == "slow flight" and words == "CP"
            reproduce(
                f"{name}: static {words}",
                computed=computed,
                printed=printed,
                rel=rel,
                source=SOURCE,
                gap="one in ten lies outside, this one just" if one_in_ten else "",
            )
