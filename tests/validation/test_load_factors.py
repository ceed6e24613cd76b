"""Load factors of gusts, manoeuvres and shocks.

14 CFR 23.337 and 23.341 (formulas read) with worked figures; kinematics.
"""

from foamwright.strength.loads import (
    certified_load_factor,
    gust_alleviation,
    gust_load_factor,
    mass_ratio,
    pull_up_load_factor,
    stopping_load_factor,
)

CFR = "14 CFR 23.341, worked figures"
LOADING = 0.5 / 0.1905  # kg/m², a plane of 0.5 kg and 0.1905 m²


def test_gust(reproduce):
    reproduce(
        "mass ratio of a 0.5 kg plane",
        computed=mass_ratio(LOADING, density=1.225, chord=0.1905, lift_slope=4.4),
        printed=5.11236,
        rel=1e-3,
        source=CFR,
    )
    reproduce(
        "gust alleviation factor of the same",
        computed=gust_alleviation(5.11236),
        printed=0.432071,
        rel=1e-3,
        source=CFR,
    )
    reproduce(
        "gust load factor of the same at 12 m/s in 3 m/s of gust",
        computed=gust_load_factor(
            LOADING, speed=12.0, gust=3.0, density=1.225, chord=0.1905, lift_slope=4.4
        ),
        printed=2.62862,
        rel=1e-3,
        source=CFR,
    )


def test_gust_in_the_units_of_the_rule(reproduce):
    pound, foot, knot = 0.45359237, 0.3048, 1852 / 3600
    reproduce(
        "gust load factor of a 2650 lb plane at 105 kt in 50 ft/s (rule in ft, lb, kt)",
        computed=gust_load_factor(
            2650 * pound / (170 * foot**2),
            speed=105 * knot,
            gust=50 * foot,
            density=1.225,
            chord=5 * foot,
            lift_slope=4.9,
        ),
        printed=3.2117,
        rel=1e-3,
        source="14 CFR 23.341 with its rounded constant 498",
    )


def test_manoeuvre_and_shock(reproduce):
    reproduce(
        "limit load factor of the normal category at 2650 lb",
        computed=certified_load_factor(2650.0),
        printed=3.8,
        rel=1e-3,
        source="14 CFR 23.337(a)(1) (from memory)",
    )
    for words, computed, printed in (
        ("pull-up at 15 m/s on 10 m radius", pull_up_load_factor(15.0, 10.0), 3.29436),
        ("nose-in at 10 m/s stopped in 50 mm, g", stopping_load_factor(10.0, 0.05), 101.972),
        ("belly landing, 1.5 m/s sink in 10 mm, g", stopping_load_factor(1.5, 0.01), 11.4718),
        ("hand launch to 8 m/s over 1.2 m, g", stopping_load_factor(8.0, 1.2), 2.71924),
    ):
        reproduce(words, computed=computed, printed=printed, rel=1e-3, source="kinematics")
