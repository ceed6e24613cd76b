"""Typed-in planes for tests of the flight room and the checks: invented, no model behind."""

from dataclasses import replace

from shapely import box

from foamwright.aero.model import AeroResult, Derivatives, DragItem
from foamwright.balance.model import Balance
from foamwright.core.air import air_at
from foamwright.core.bands import Band
from foamwright.design.model import Design
from foamwright.flight.model import FlightResult, Launch, Mode, Performance
from foamwright.parts.model import Facet, Part, PartsList, Source
from foamwright.power.model import (
    MotorConstants,
    PackConstants,
    PowerResult,
    PowerTrain,
)
from foamwright.power.propeller import propeller_of
from foamwright.shape.model import (
    Airframe,
    Body,
    LiftingPanel,
    LiftingSurface,
    WingSection,
)
from foamwright.sheets.model import Layout
from foamwright.strength.model import Failure, StrengthResult

AIR = air_at(0.0)


def band(value, spread=0.1):
    return Band(value * (1 - spread), value, value * (1 + spread))


def design(**changes):
    """1.2 m aileron trainer, metric."""
    table = {
        "name": "Sample",
        "field": {"wind": 2.0},
        "board": {"length": 0.762, "width": 0.508},
        "wing": {
            "position": 0.22,
            "panel": [{"span": 0.6, "chord": 0.2, "dihedral": 0.035}],
            "aileron": {},
            "reinforcement": [{"kind": "dowel"}],
        },
        "stab": {"position": 0.8, "span": 0.4, "chord": 0.13},
        "fin": {"position": 0.8, "span": 0.15, "chord": 0.14},
        "fuselage": {"length": 0.93},
        "pack": {"position": 0.1},
        "servo": [{"role": "elevator"}, {"role": "rudder"}],
        **changes,
    }
    return Design.model_validate(table)


SECTION = WingSection(
    build="folded",
    upper=((0.0, 0.0), (0.3, 0.09), (1.0, 0.0)),
    lower=((0.0, 0.0), (0.3, -0.03), (1.0, 0.0)),
    chord=0.2,
    thickness_ratio=0.115,
    camber_ratio=0.03,
    trailing_thickness_ratio=0.01,
    bottom_angle=0.03,
    target_rms=0.004,
    target_max=0.009,
    blank_length=0.41,
    lines=(),
    skin_path=(),
    spar_box=None,
)


def panel(root, tip, chord):
    return LiftingPanel(root, tip, chord, chord, 0.03, 0.03, SECTION)


def surface(name, panels, *, mirrored, x, chord, area, span):
    return LiftingSurface(
        name=name,
        panels=panels,
        mirrored=mirrored,
        controls=(),
        area=area,
        span=span,
        mean_chord=chord,
        mean_chord_x=x,
        aspect_ratio=span**2 / area,
        sits_on_body=False,
    )


WING = surface(
    "wing",
    (panel((0.22, 0.0, 0.05), (0.22, 0.6, 0.071), 0.2),),
    mirrored=True,
    x=0.22,
    chord=0.2,
    area=0.24,
    span=1.2,
)
STAB = surface(
    "stab",
    (panel((0.8, 0.0, 0.0), (0.8, 0.2, 0.0), 0.13),),
    mirrored=True,
    x=0.8,
    chord=0.13,
    area=0.052,
    span=0.4,
)
FIN = surface(
    "fin",
    (panel((0.8, 0.0, 0.0), (0.8, 0.0, 0.15), 0.14),),
    mirrored=False,
    x=0.8,
    chord=0.14,
    area=0.021,
    span=0.15,
)
AIRFRAME = Airframe(
    wing=WING,
    stab=STAB,
    fin=FIN,
    body=Body("profile", (), 0.93, 0.003, 0.12, 0.06),
    thrust_point=(-0.03, 0.0, 0.0),
    thrust_axis=(-1.0, 0.0, 0.0),
    propeller_diameter=0.2286,
    board_thickness=0.0048,
    gear_area=0.0,
)

DERIVATIVES = Derivatives(
    lift_alpha=4.9,
    lift_pitch_rate=6.0,
    lift_elevator=0.4,
    drag_alpha=0.3,
    pitch_alpha=-0.6,
    pitch_pitch_rate=-9.0,
    pitch_alpha_rate=-3.0,
    pitch_elevator=-1.1,
    side_beta=-0.35,
    side_roll_rate=0.0,
    side_yaw_rate=0.2,
    side_rudder=0.1,
    roll_beta=-0.05,
    roll_roll_rate=-0.45,
    roll_yaw_rate=0.15,
    roll_aileron=0.2,
    roll_rudder=0.005,
    yaw_beta=0.06,
    yaw_roll_rate=-0.06,
    yaw_yaw_rate=-0.08,
    yaw_aileron=-0.01,
    yaw_rudder=-0.05,
)

AERO = AeroResult(
    wing_area=0.24,
    span=1.2,
    mean_chord=0.2,
    mean_chord_x=0.22,
    neutral_point_x=0.31,
    static_margin=0.125,
    lift_slope=4.9,
    zero_lift_angle=-0.05,
    lift_max=1.1,
    lift_max_untrimmed=1.15,
    stall_speed=5.9,
    stall_start=0.3,
    stall_words="root first",
    drag_items=(DragItem("wing section", 0.03, "assumed"),),
    drag_zero=0.05,
    drag_lift_factor=0.07,
    lift_at_drag_min=0.1,
    max_lift_drag=8.5,
    best_glide_speed=8.0,
    downwash_slope=0.4,
    tail_volume_horizontal=0.55,
    tail_volume_vertical=0.035,
    trim_elevator=-0.02,
    trim_speed=8.3,
    hands_off_lift=0.5,
    cg_forward=0.25,
    cg_aft=0.30,
    roll_rate=1.6,
    adverse_yaw=-0.08,
    hinge_moments={"elevator": 0.02},
    derivatives=DERIVATIVES,
    uncertainty={"stall_speed": 0.3, "static_margin": 0.03},
    notes=(),
)

BALANCE = Balance(
    all_up_mass=0.56,
    mass_band=band(0.56, 0.06),
    airframe_mass=0.3,
    cg=(0.285, 0.001, 0.0),
    cg_x_band=Band(0.281, 0.285, 0.289),
    inertia=(0.012, 0.016, 0.027),
    inertia_xz=0.0003,
    lines=(),
    pack_front=0.06,
    pack_back=0.3,
    cg_front=0.275,
    cg_back=0.325,
)

TRAIN = PowerTrain(
    motor=MotorConstants(
        kv=band(1000 * 0.1047198, 0.02),
        resistance=band(0.15),
        no_load_current=band(0.6),
        max_current=band(16.0),
        mass=band(0.05),
    ),
    propeller=propeller_of("slow flight", 0.2286, pitch=0.1194, blades=2, line=""),
    pack=PackConstants(
        cells=3,
        capacity=4680.0,
        resistance=band(0.05),
        max_current=band(26.0),
        mass=band(0.11),
        cutoff=3.3,
    ),
    controller_resistance=0.008,
    controller_current=20.0,
)
POWER = PowerResult(
    train=TRAIN,
    static_thrust=7.0,
    static_thrust_band=band(7.0),
    full_throttle_current=12.0,
    full_throttle_current_band=band(12.0),
    full_throttle_power=130.0,
    static_speed=830.0,
    pitch_speed=15.8,
    notes=(),
)


def mode(name, real, imag=0.0, damping=1.0, period=None):
    return Mode(name, real, imag, damping, period, -0.693 / real, "as it feels")


FLIGHT = FlightResult(
    performance=Performance(
        level_speed=8.3,
        level_throttle=0.4,
        level_current=3.6,
        level_power=40.0,
        climb_rate=4.0,
        climb_angle=0.5,
        climb_speed=8.0,
        top_speed=14.0,
        pitch_speed_ratio=2.7,
        sink_rate=0.9,
        glide_ratio=8.0,
        endurance=970.0,
        thrust_weight=1.27,
        speeds=(6.0, 14.0),
        thrust=(6.0, 2.0),
        drag=(0.7, 2.0),
        notes=(),
    ),
    modes=(
        mode("short period", -7.0, 4.0, 0.87, 1.57),
        mode("phugoid", -0.1, 0.9, 0.11, 7.0),
        mode("Dutch roll", -0.9, 4.0, 0.22, 1.57),
        mode("roll", -14.0),
        mode("spiral", 0.03),
    ),
    spiral_parameter=3.0,
    launch=Launch(6.4, 6.8, 0.4, 0.3, True),
    wind_limit=3.3,
    thrust_pitch=0.02,
    kinetic_energy=55.0,
)


def failure(name, factor):
    return Failure(name, name, "wing", factor, band(factor, 0.3), "It breaks.", "assumed")


STRENGTH = StrengthResult(
    manoeuvre_load_factor=4.0,
    gust_load_factor=3.2,
    limit_load_factor=5.2,
    first_failure="centre_joint",
    needed_load_factor=4.0,
    failures=(
        failure("centre_joint", 5.2),
        failure("wing_top_buckling", 6.0),
        failure("bands", 7.0),
        failure("firewall_bending", 2.5),
        failure("stab_bending", 3.0),
        failure("pushrod_elevator", 4.0),
        failure("flutter_wing", 2.0),
        failure("negative_wing", 5.0),
        failure("landing_wing", 3.0),
        failure("launch_grip", 8.0),
        failure("fixing_dowel_bearing", 4.0),
    ),
    tip_deflection=0.03,
    wing_twist=0.01,
    divergence_speed=40.0,
    stab_deflection=0.004,
    fin_deflection=0.003,
    firewall_margin=1.5,
    servo_loads={"elevator": 0.2, "rudder": 0.1},
    stations=(0.0, 0.6),
    bending_moment=(1.0, 0.0),
    bending_strength=(2.0, 0.5),
    notes=(),
)


def part(name, length, width, *, at=(0.0, 0.0, 0.0), along=(0.0, 1.0, 0.0)):
    """A flat board part that lies along the span unless told otherwise."""
    outline = box(0.0, 0.0, length, width)
    across = (1.0, 0.0, 0.0) if along[1] else (0.0, 0.0, 1.0)
    return Part(
        id=name,
        name=name.replace("-", " "),
        kind=name,
        side="right" if name.endswith("right") else "",
        stock="light display board",
        source=Source.BOARD,
        outline=outline,
        lines=(),
        facets=(Facet(outline, at, along, across, 0.005),),
        areal_mass=band(0.3),
        thickness=0.005,
    )


PARTS = PartsList((part("wing-skin-1-right", 0.6, 0.41), part("fuselage-1", 0.7, 0.09)), ())
LAYOUT = Layout((), 3, 0.762, 0.508, 0.003, 0.006, 0.7, "draft")


def replaced(result, **changes):
    """The same result with some fields changed."""
    return replace(result, **changes)
