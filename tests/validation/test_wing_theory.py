"""Wings alone against textbook lattice, lifting-line and lifting-surface figures."""

import math

import pytest

from airframes import control, plate, rows, surface
from foamwright.aero.analyse import derivatives_at
from foamwright.aero.handling import in_body_axes
from foamwright.aero.lattice import solve_lattice, solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.plain_plane import Flap, PlainSurface, plain_airframe
from foamwright.aero.planforms import elliptic_wing
from foamwright.aero.second import helmbold_slope
from foamwright.aero.sections import section_polars
from foamwright.aero.thin import flap_effectiveness
from foamwright.aero.wing import bare_wing, lifting_line_wing, wing_figures
from foamwright.core.air import air_at
from foamwright.shape.reference import clark_y

SURFACE = "lifting surface, converged, worked out for the reference set"
GLAUERT = "Glauert, Elements of Aerofoil and Airscrew Theory, ch. XI, a0 = 2 pi"


def test_swept_wing_on_a_coarse_lattice(reproduce):
    swept = bare_wing(
        span=5.0, chords=(1.0, 1.0), sweep=math.radians(45.0), fineness=Fineness(4, 1, even=True)
    )
    reproduce(
        "AR 5, 45° sweep, 1 x 4 lattice: lift slope (1/rad)",
        computed=swept.lift_slope,
        printed=3.443,
        rel=3e-3,
        source="Bertin & Smith, vortex-lattice example",
    )


def test_warren_12(reproduce):
    wing = bare_wing(span=2.8284271, chords=(1.5, 0.5), sweep=math.radians(53.54))
    moment = wing.moment_slope * wing.mean_chord  # printed on a chord of 1
    source = "Mason, Applied Computational Aerodynamics, ch. 6 (Warren-12)"
    reproduce(
        "Warren-12 lift slope (1/rad)",
        computed=wing.lift_slope,
        printed=2.743,
        rel=0.01,
        source=source,
    )
    reproduce(
        "Warren-12 moment slope about the apex (1/rad)",
        computed=moment,
        printed=-3.10,
        rel=0.01,
        source=source,
    )


def test_elliptic_wing(reproduce):
    source = "Prandtl lifting line, exact for the ellipse"
    places = [math.sin(0.5 * math.pi * k / 60) for k in range(61)]
    root = 4.0 / (math.pi * 6.0)
    chords = [max(root * math.sqrt(1.0 - p * p), 1e-4) for p in places]
    line = lifting_line_wing(span=1.0, chords=chords, places=places)
    reproduce(
        "elliptic AR 6, lifting line: lift slope (1/rad)",
        computed=line.lift_slope,
        printed=4.7124,
        rel=1e-3,
        source=source,
    )
    wing = elliptic_wing(6.0)
    lattice = wing_figures(wing, solve_surfaces([wing], [Fineness(24, 4)]))
    reproduce(
        "elliptic AR 6, lattice: induced factor",
        computed=lattice.induced_factor,
        printed=1.0,
        near=0.003,
        source=source,
    )


def test_rectangular_wing(reproduce):
    line = lifting_line_wing(span=6.0, chords=(1.0, 1.0))
    lattice = bare_wing(span=6.0, chords=(1.0, 1.0))
    reproduce(
        "AR 6, lifting line: lift slope (1/rad)",
        computed=line.lift_slope,
        printed=4.530,
        rel=5e-3,
        source=GLAUERT,
    )
    reproduce(
        "AR 6, lifting line: delta",
        computed=line.induced_factor - 1.0,
        printed=0.048,
        near=0.002,
        source=GLAUERT,
    )
    reproduce(
        "AR 6, lifting line: roll damping",
        computed=line.roll_damping,
        printed=-0.523,
        rel=0.01,
        source=GLAUERT,
    )
    reproduce(
        "AR 6, lattice: lift slope (1/rad)",
        computed=lattice.lift_slope,
        printed=4.213,
        rel=3e-3,
        source=SURFACE,
    )
    reproduce(
        "AR 6, lattice: roll damping",
        computed=lattice.roll_damping,
        printed=-0.440,
        rel=0.02,
        source=SURFACE,
    )
    four = bare_wing(span=4.0, chords=(1.0, 1.0))
    reproduce(
        "AR 4, lattice: roll damping",
        computed=four.roll_damping,
        printed=-0.336,
        rel=0.02,
        source=SURFACE,
    )


@pytest.mark.parametrize(("aspect", "taper", "delta"), [(8.0, 0.6, 0.0245), (10.0, 1.0, 0.0859)])
def test_induced_drag_of_taper(reproduce, aspect, taper, delta):
    span = aspect * 0.5 * (1.0 + taper)
    line = lifting_line_wing(span=span, chords=(1.0, taper))
    reproduce(
        f"AR {aspect:.0f}, taper {taper}: delta",
        computed=line.induced_factor - 1.0,
        printed=delta,
        near=0.002,
        source=GLAUERT,
    )


def test_dihedral(reproduce):
    tilt = math.radians(1.0)
    wing = bare_wing(span=6.0, chords=(1.0, 1.0), dihedral=tilt)
    reproduce(
        "AR 6, lattice: roll due to sideslip per rad of dihedral",
        computed=wing.dihedral_effect / tilt,
        printed=-0.731,
        rel=0.03,
        source=SURFACE,
    )
    line = lifting_line_wing(span=6.0, chords=(1.0, 1.0))
    reproduce(
        "AR 6, lifting line: same",
        computed=line.dihedral_effect,
        printed=-0.851,
        rel=0.01,
        source=GLAUERT,
    )


def test_exact_solutions(reproduce):
    """The circle is solved in closed series; the square by a dense numerical scheme."""
    places = [math.sin(0.5 * math.pi * k / 40) for k in range(41)]
    chords = [2.0 * math.sqrt(1.0 - p * p) if p < 1.0 else 0.0 for p in places]
    for name, wing, slope, source in (
        (
            "circular wing",
            bare_wing(span=2.0, chords=chords, places=places, sweep_at=0.5),
            1.790750,
            "Jordan 1973, exact, as quoted by Tuck 1993; from memory",
        ),
        (
            "square wing",
            bare_wing(span=1.0, chords=(1.0, 1.0)),
            1.460227,
            "Tuck 1993, Some accurate solutions of the lifting surface integral equation; from "
            "memory",
        ),
    ):
        reproduce(
            f"{name}, lattice: lift slope (1/rad)",
            computed=wing.lift_slope,
            printed=slope,
            rel=1e-3,
            source=source,
        )


def test_aileron_strip(reproduce):
    flap = control("aileron", span=1.5, chord=1.0, fraction=1.0, start=0.5)
    wing = surface(
        "wing", (0.0, 0.0, 0.0), span=6.0, chords=(1.0, 1.0), section=plate(1.0), controls=(flap,)
    )
    solution = solve_surfaces([wing], [Fineness(24, 6)])
    (case,) = solution.select("aileron")
    roll = 2.0 * solution.forces[case, 0, 0, 3] / 36.0
    reproduce(
        "AR 6, outer half at opposite unit incidence: Cl",
        computed=roll,
        printed=0.490,
        rel=0.01,
        source=SURFACE,
    )


@pytest.mark.parametrize(("aspect", "slope"), [(1, 1.4833), (2, 2.6026), (4, 3.8833), (6, 4.5287)])
def test_helmbold(reproduce, aspect, slope):
    reproduce(
        f"low-aspect formula, AR {aspect}: lift slope (1/rad)",
        computed=helmbold_slope(aspect),
        printed=slope,
        rel=1e-4,
        source="Helmbold 1942",
    )


@pytest.mark.parametrize(
    ("fraction", "worth"),
    [(0.10, 0.396), (0.20, 0.550), (0.25, 0.609), (0.30, 0.661), (0.40, 0.748)],
)
def test_flap(reproduce, fraction, worth):
    reproduce(
        f"flap effectiveness, {100 * fraction:.0f} % chord",
        computed=flap_effectiveness(fraction),
        printed=worth,
        rel=1e-3,
        source="thin-aerofoil theory, Glauert",
    )


def whole_airplane():
    """Wing, mass and CG as published; tail and fuselage are not: usual proportions, assumed.

    The published figures are of 17 m/s and of body axes; that moves roll damping by 2 %.
    """
    upper, lower, _ = clark_y()
    chord = 0.3097 / 1.27
    wing = PlainSurface(
        1.27,
        (chord, chord),
        at=(0.155, 0.0, 0.06),
        dihedral=math.radians(1.0),
        outline=(rows(upper), rows(lower)),
        flap=Flap(0.22, 0.15, 0.95),
    )
    stab = PlainSurface(0.50, (0.124, 0.124), at=(0.86, 0.0, 0.03), flap=Flap(0.33))
    fin = PlainSurface(0.17, (0.17, 0.11), at=(0.83, 0.0, 0.04), flap=Flap(0.45))
    body = [(0.0, -0.05, 0.05, 0.09), (0.2, -0.07, 0.07, 0.10), (0.45, -0.07, 0.06, 0.10),
            (0.95, -0.01, 0.02, 0.04)]  # fmt: skip
    frame = plain_airframe(wing, stab, fin=fin, body=body, propeller_diameter=0.28)
    air = air_at(100.0)
    found, alpha = derivatives_at(
        frame, solve_lattice(frame), section_polars(frame, air),
        air=air, mass=1.959, cg=(0.2175, 0.0, 0.0), speed=17.0,
    )  # fmt: skip
    return in_body_axes(found, alpha)


def test_small_research_airplane_whole(reproduce):
    plane = whole_airplane()
    source = "Univ. of Minnesota UAV lab, flight identification; tail and fuselage assumed"
    reproduce(
        "1.27 m trainer at 17 m/s: lift slope, wing and a stab of a fifth of its area",
        computed=plane.lift_alpha,
        printed=4.58,
        rel=0.12,
        source=source,
    )
    reproduce(
        "1.27 m trainer at 17 m/s, body axes: roll damping, wing and stab",
        computed=plane.roll_roll_rate,
        printed=-0.4496,
        rel=0.15,
        source=source,
    )
    # The laboratory gives two roll inertias 39 % apart; a damping read from a roll's time constant
    # goes with the one that was put in.


def test_small_research_airplane(reproduce):
    """A wing alone must explain most of the roll damping that flight tests identified."""
    wing = bare_wing(span=1.27, chords=(0.25, 0.25))
    reproduce(
        "1.27 m trainer: roll damping, wing alone",
        computed=wing.roll_damping,
        printed=-0.4496,
        rel=0.15,
        source="Univ. of Minnesota UAV lab, flight identification",
    )
