"""A plane typed in by hand, for drawing tests that must not lean on the other rooms' results."""

import math
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace

from sheet_job import whole_job

from foamwright.core.bands import Band
from foamwright.design.model import Board, WingPanel
from foamwright.parts.model import Item
from foamwright.shape.model import (
    Airframe,
    Body,
    BodyStation,
    ControlSurface,
    LiftingPanel,
    LiftingSurface,
    WingSection,
)
from foamwright.stock.load import load_stock

SECTION = WingSection(
    build="folded",
    upper=((0.0, 0.0), (0.3, 0.1), (1.0, 0.01)),
    lower=((0.0, 0.0), (0.3, -0.01), (1.0, 0.0)),
    chord=0.2,
    thickness_ratio=0.11,
    camber_ratio=0.04,
    trailing_thickness_ratio=0.02,
    bottom_angle=0.03,
    target_rms=None,
    target_max=None,
    blank_length=0.42,
    lines=(),
    skin_path=(),
    spar_box=None,
)


def surface(name, root, tip, chords, *, mirrored, control, span):
    panel = LiftingPanel(root, tip, *chords, 0.02, 0.02, SECTION)
    hinged = ControlSurface(control, 0.1, 1.0, 0.3, 0.04, 0.5, 0.02, 0.2, 0.2, True)
    area = span * sum(chords) / 2
    return LiftingSurface(
        name=name,
        panels=(panel,),
        mirrored=mirrored,
        controls=(hinged,),
        area=area,
        span=span,
        mean_chord=sum(chords) / 2,
        mean_chord_x=root[0],
        aspect_ratio=span**2 / area,
        sits_on_body=not mirrored,
    )


def airframe():
    stations = ((0.0, -0.03, 0.03), (0.3, -0.045, 0.045), (0.9, -0.015, 0.02))
    return Airframe(
        wing=surface(
            "wing", (0.22, 0.0, 0.04), (0.23, 0.6, 0.07), (0.2, 0.15),
            mirrored=True, control="aileron", span=1.2,
        ),
        stab=surface(
            "stab", (0.77, 0.0, 0.02), (0.78, 0.2, 0.02), (0.13, 0.12),
            mirrored=True, control="elevator", span=0.4,
        ),
        fin=surface(
            "fin", (0.75, 0.0, 0.02), (0.79, 0.0, 0.17), (0.14, 0.1),
            mirrored=False, control="rudder", span=0.15,
        ),
        body=Body(
            "profile", tuple(BodyStation(*row, 0.03) for row in stations), 0.9, 0.0027, 0.1, 0.06
        ),
        thrust_point=(-0.035, 0.0, 0.0),
        thrust_axis=(-0.9988, 0.0349, -0.0349),
        propeller_diameter=0.2286,
        board_thickness=0.0048,
        gear_area=0.0,
    )  # fmt: skip


def items():
    some = Band.exact(0.05)
    rows = [
        ("motor", (-0.02, 0.0, 0.0), (0.03, 0.028, 0.028)),
        ("pack", (0.1, 0.0, 0.0), (0.1, 0.034, 0.025)),
        ("servo-elevator", (0.36, 0.02, 0.0), (0.023, 0.012, 0.025)),
    ]
    return tuple(Item(name, name, "", some, at, size) for name, at, size in rows)


def stand_in(name="Brindle Cob", *, units="metric", parts=None, board=None):
    design = SimpleNamespace(
        name=name,
        units=units,
        builder="",
        board=board or Board(),
        motor=SimpleNamespace(
            stock="outrunner 22 mm 1400 Kv", down_thrust=math.radians(2), right_thrust=0.0
        ),
        propeller=SimpleNamespace(diameter=0.2286, pitch=0.1524, kind="electric"),
        wing=SimpleNamespace(
            incidence=0.0262,
            panel=(
                WingPanel(span=0.4, chord=0.2, dihedral=math.radians(3)),
                WingPanel(span=0.2, dihedral=math.radians(9), washout=math.radians(2)),
            ),
        ),
    )
    return SimpleNamespace(
        design=design,
        stock=load_stock(),
        path=Path("brindle-cob.toml"),
        airframe=airframe(),
        parts=SimpleNamespace(parts=whole_job() if parts is None else parts, items=items()),
        balance=SimpleNamespace(all_up_mass=0.654, cg=(0.275, 0.0, 0.01)),
        aero=SimpleNamespace(
            cg_forward=0.262, cg_aft=0.285, neutral_point_x=0.305, static_margin=0.15
        ),
    )


def longer(part, length):
    """The same part stretched to a length along x."""
    from shapely import affinity

    left, _, right, _ = part.outline.bounds
    grown = affinity.scale(part.outline, length / (right - left), 1.0, origin=(left, 0.0))
    return replace(part, outline=grown)
