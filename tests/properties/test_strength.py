"""More material is never weaker, and heat never makes anything stronger."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from foamwright.strength.heat import over_temperature
from foamwright.strength.joint import heat_factor
from foamwright.strength.loads import span_load
from sample_wing import STOCK, airframe_of, design, limits, loads, strength

FEW = settings(deadline=None, max_examples=15)
STICK = {"kind": "bamboo", "place": "spar bottom"}


def stick(place, end):
    return {"kind": "dowel", "place": place, "end": f"{end:.0f} mm"}


@FEW
@given(strips=st.integers(1, 2), width=st.floats(12.0, 40.0), place=st.sampled_from(["low", "mid"]))
def test_a_taller_spar_is_never_weaker(strips, width, place):
    at = 0.27 if place == "low" else 0.33
    plans = [
        design(
            wing__spar={"strips": n, "strip_width": f"{width:.1f} mm", "position": at},
        )
        for n in (strips, strips + 1)
    ]
    one, more = (strength(plan) for plan in plans)
    assert limits(more)["wing_top_crushing"] >= limits(one)["wing_top_crushing"]
    assert more.tip_deflection <= one.tip_deflection
    assert more.limit_load_factor >= 0.999 * one.limit_load_factor


@FEW
@given(
    place=st.sampled_from(["spar bottom", "spar top", "skin bottom", "skin top"]),
    end=st.floats(120.0, 500.0),
)
def test_a_stick_never_makes_the_wing_softer(place, end):
    bare, stiffened = (strength(design(wing__reinforcement=r)) for r in ([], [stick(place, end)]))
    assert stiffened.tip_deflection <= bare.tip_deflection
    assert stiffened.bending_strength[0] >= 0.9 * bare.bending_strength[0]


@FEW
@given(cool=st.floats(280.0, 330.0), rise=st.floats(0.5, 40.0))
def test_heat_never_makes_stronger(cool, rise):
    assert heat_factor(cool + rise, 323.0) <= heat_factor(cool, 323.0)
    before, after = (strength(temperature=t) for t in (cool, cool + rise))
    for name, limit in limits(before).items():
        assert limits(after)[name] <= limit * (1 + 1e-9), name


@FEW
@given(mass=st.floats(0.2, 1.2), more=st.floats(1.05, 1.6))
def test_a_heavier_plane_holds_fewer_g(mass, more):
    light, heavy = (strength(mass=m, wing_mass=0.1) for m in (mass, more * mass))
    for name in ("wing_top_crushing", "centre_joint", "bands"):
        assert limits(heavy)[name] < limits(light)[name]


@FEW
@given(bands=st.integers(0, 12))
def test_every_band_helps_alike(bands):
    found = limits(strength(design(wing__attachment={"bands": bands})))["bands"]
    four = limits(strength(design()))["bands"]
    assert found == pytest.approx(bands / 4 * four)


@FEW
@given(span=st.floats(350.0, 650.0), more=st.floats(1.05, 1.4))
def test_a_longer_wing_bends_more(span, more):
    short, long = (
        strength(design(wing__panel=[{"span": f"{s:.0f} mm", "chord": "190 mm"}]))
        for s in (span, span * more)
    )
    assert long.tip_deflection > short.tip_deflection
    assert long.limit_load_factor <= short.limit_load_factor


def test_bands_enclose_and_stations_run_outwards():
    result = strength()
    for failure in result.failures:
        band = failure.load_factor_band
        assert band.low <= failure.load_factor <= band.high, failure.id
    assert list(result.stations) == sorted(result.stations)
    assert all(b >= 0 for b in result.bending_strength)
    factors = [failure.load_factor for failure in result.failures]
    assert factors == sorted(factors)


@FEW
@given(
    strips=st.integers(1, 2),
    mass=st.floats(0.3, 1.0),
    papers=st.sampled_from(["both", "one peeled"]),
)
def test_more_spar_is_never_weaker_either_way_up(strips, mass, papers):
    one, more = (
        limits(strength(design(wing__spar__strips=n, board__papers=papers), mass=mass))
        for n in (strips, strips + 1)
    )
    for name in ("wing_top_crushing", "negative_wing", "landing_wing"):
        assert more[name] >= 0.999 * one[name], name


@FEW
@given(hot=st.floats(281.0, 350.0), more=st.floats(0.5, 30.0))
def test_heat_curves_only_fall(hot, more):
    plan = design()
    curves = over_temperature(
        plan, airframe_of(plan), STOCK, loads=loads(), temperatures=(hot, hot + more)
    )
    for name, (cool, warm) in curves.items():
        assert warm <= cool * (1 + 1e-9), name


@FEW
@given(mass=st.floats(0.3, 1.0), share=st.floats(0.05, 0.5))
def test_lift_and_weight_are_kept_along_the_span(mass, share):
    """All lift less the wing's own weight comes out at the root, whatever the shape."""
    y = np.linspace(0.0, 0.5, 41)
    load = span_load(
        y, np.full(41, 0.2), mass=mass, wing_mass=share * mass, shape=1.0 - 0.8 * (y / 0.5) ** 2
    )
    assert load.shear[0] == pytest.approx(0.5 * 9.80665 * mass * (1.0 - share), rel=1e-9)
