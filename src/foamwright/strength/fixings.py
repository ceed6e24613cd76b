"""Small things that let go: dowels, horns, hinges, the pack's strap, and the hand that throws."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.design.model import Design, Servo
from foamwright.shape.model import Airframe, ControlSurface, LiftingSurface
from foamwright.stock.model import Stock
from foamwright.strength.beams import rod_moment, rod_second_moment
from foamwright.strength.cases import Figures
from foamwright.strength.landing import SKID_DISTANCE
from foamwright.strength.linkage import CONTROLS_OF_ROLE, role_moment
from foamwright.strength.loads import negative_load_factor, stopping_load_factor
from foamwright.strength.model import LoadCase

type Array = NDArray[np.float64]

DOWEL_OUT = 0.010  # m from the fuselage's side to where the bands lie; common practice
HORN_BASE = (0.020, 0.012)  # m along the chord and across, foot of a horn; common practice
HORN_TILT = 2.0 / 3.0  # of the foot's length: arm of the pull at its rear edge; assumed
FOLD_SHARE = 0.5  # of the paper's strength left in a hinge that is folded to and fro; assumed
FLAP_LIFT = 1.0  # lift coefficient of a hinged part at full throw, from memory
STRAP = (0.020, 0.040)  # m, width and overlap of a hook-and-loop strap; common practice
STRAP_SHEAR = 70e3  # Pa, hook and loop in shear, from memory: 50 to 140 kPa
GRIP_PADS = 0.0010  # m², four finger tips with the thumb against them; assumed
GRIP_FRICTION = 0.4  # dry skin on paper, from memory: 0.3 to 0.6
THROW_TRAVEL = 1.2  # m of arm and step; common practice, no source
MOST_THRUST = 1.0  # of the static thrust while the hand still holds; assumed


@dataclass(frozen=True, slots=True)
class Fixing:
    """One thing that may let go.

    Attributes:
        id: Such as "fixing_dowel_bearing".
        name: In trade words.
        place: Where on the plane.
        ratios: Strength over load, one a build. [-]
        why: One sentence.
        source: Publication or "assumed".
    """

    id: str
    name: str
    place: str
    ratios: Array
    why: str
    source: str


def dowels(
    design: Design, stock: Stock, *, figures: Figures, pull: Array, faces: int
) -> tuple[Fixing, ...]:
    """Dowels under the pull of all bands: the foam they bear on, and their own bending.

    Bearing: sigma = F / (d w) on foam and papers of all layers; bending: sigma = 32 M / (pi d³),
    M = (F / 2) times the way out to the bands.

    Args:
        design: The design. [-]
        stock: The stock tables. [-]
        figures: Doubted figures. [-]
        pull: Of all bands on one dowel, one a build. [N]
        faces: Papers on the board. [-]

    Returns:
        Two ways to give.

    Source:
        [ROARK] bending; bearing by the crushing strengths of foam and paper.

    Example:
        >>> dowels(design, stock, figures=f, pull=p, faces=2)[0].id  # doctest: +SKIP
        'fixing_dowel_bearing'
    """
    name = design.wing.attachment.dowel
    rod = stock.rods[name]
    t = figures["board.thickness"]
    box = design.fuselage.build == "box"
    layers = 2 if box else max(design.fuselage.saddle_layers, design.fuselage.layers)
    foam = figures["board.core_compressive_strength"] * layers * t
    paper = (
        figures["board.paper_compressive_strength"]
        * figures["board.paper_thickness"]
        * (layers * faces)
    )
    holds = rod.width * (foam + paper).ravel()
    load = np.maximum(pull.ravel(), 1e-9)
    inertia = rod_second_moment(rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round)
    breaks = rod_moment(figures[f"rod.{name}.strength"], inertia, height=rod.height)
    strength = np.asarray(breaks).ravel()
    bends = strength / (0.5 * load * DOWEL_OUT)
    first = float(load[0])
    return (
        Fixing(
            "fixing_dowel_bearing",
            "dowel cuts into the fuselage",
            "wing dowels",
            holds / load,
            f"The bands pull a dowel with {first:.0f}\u00a0N; {layers} layers under it hold "
            f"{float(holds[0]):.0f}\u00a0N.",
            "bearing; strengths from memory",
        ),
        Fixing(
            "fixing_dowel_bending",
            "dowel snaps",
            "wing dowels",
            bends,
            f"{first:.0f}\u00a0N on its two ends bend the {name} with "
            f"{0.5 * first * DOWEL_OUT:.2f}\u00a0N m; it holds {float(strength[0]):.2f}\u00a0N m.",
            "[ROARK]",
        ),
    )


def horn_hold(moment: float, figures: Figures, *, faces: int) -> Array:
    """Strength over load of a horn glued into the board: its foot is tilted out of the paper.

    Pull at the foot's rear edge F = H / (2/3 foot); hold: foam sheared and papers torn along half
    the foot's rim.

    Args:
        moment: At the hinge. [N m]
        figures: Doubted figures. [-]
        faces: Papers on the board. [-]

    Returns:
        Ratio, one a build. [-]

    Source:
        Statics; punching along a rim; assumed foot of 20 mm by 12 mm.

    Example:
        >>> round(float(horn_hold(0.02, figures, faces=2)[0]))
        96
    """
    long, wide = HORN_BASE
    rim = long + wide  # half of the rim lies behind the middle
    paper = (
        min(faces, 1) * figures["board.paper_tensile_strength"] * figures["board.paper_thickness"]
    )
    foam = figures["board.core_shear_strength"] * figures["board.thickness"]
    pull = max(moment, 1e-9) / (HORN_TILT * long)
    return np.asarray((paper + foam) * rim / pull).ravel()


def hinge_hold(
    surface: LiftingSurface, control: ControlSurface, figures: Figures, *, pressure: float
) -> tuple[Array, float]:
    """Strength over load of a hinge made of the board's own paper.

    Load: q S_flap CL; hold: paper in tension along the hinge, half of it left in a worn fold.

    Args:
        surface: That the control is part of. [-]
        control: The hinged part. [-]
        figures: Doubted figures. [-]
        pressure: Dynamic pressure at top speed. [Pa]

    Returns:
        Ratio, one a build [-], and the load [N].

    Source:
        Statics; strength of the paper from memory.

    Example:
        >>> hinge_hold(airframe.stab, control, figures, pressure=150.0)[1]  # doctest: +SKIP
        1.9
    """
    length = max(control.end - control.start, 0.05) * surface.span
    load = pressure * FLAP_LIFT * length * control.chord_fraction * surface.mean_chord
    paper = figures["board.paper_tensile_strength"] * figures["board.paper_thickness"]
    return np.asarray(FOLD_SHARE * paper * length / load).ravel(), load


def controls_hold(
    design: Design, airframe: Airframe, *, figures: Figures, loads: LoadCase, faces: int
) -> list[Fixing]:
    """Horns and hinges at full throw and top speed.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        figures: Doubted figures. [-]
        loads: Numbers of the plane. [-]
        faces: Papers on the board. [-]

    Returns:
        A horn for each servo, a hinge for each control; hinges of peeled board are taped and left
        out.

    Source:
        Statics.

    Example:
        >>> controls_hold(design, airframe, figures=f, loads=l, faces=2)  # doctest: +SKIP
    """
    found: list[Fixing] = []
    for servo in design.servo:
        moment = role_moment(servo, loads.hinge_moments)
        slug = f"fixing_horn_{servo.role.replace(' ', '_')}"
        if moment is None or any(f.id == slug for f in found):
            continue
        ratios = horn_hold(moment, figures, faces=faces)
        found.append(
            Fixing(
                slug,
                f"{servo.role} horn tears out",
                _control_of(servo),
                ratios,
                f"{1000 * moment:.0f}\u00a0N mm at the hinge tilt the horn's foot; it holds "
                f"{float(ratios[0]):.1f} times that.",
                "assumed",
            )
        )
    pressure = 0.5 * loads.density * loads.top_speed**2
    surfaces = [airframe.wing, airframe.stab, *([airframe.fin] if airframe.fin is not None else [])]
    for surface in surfaces if faces else ():
        for control in surface.controls:
            ratios, load = hinge_hold(surface, control, figures, pressure=pressure)
            found.append(
                Fixing(
                    f"fixing_hinge_{control.name}",
                    f"{control.name} hinge tears",
                    control.name,
                    ratios,
                    f"Full throw at top speed pulls its hinge with {load:.1f}\u00a0N; the "
                    f"folded paper holds {float(ratios[0]):.0f} times that.",
                    "strength from memory",
                )
            )
    return found


def _control_of(servo: Servo) -> str:
    return CONTROLS_OF_ROLE[servo.role][0]


def strap_hold(loads: LoadCase, *, needed: float, builds: int) -> Fixing | None:
    """Strength over load of the strap that holds the pack: upside down, or in a skid.

    Hold = shear of hook and loop times their overlap; load = pack mass times the larger of the
    negative load factor and the skid's.

    Args:
        loads: Numbers of the plane. [-]
        needed: Positive load factor asked of the wing. [-]
        builds: How many. [-]

    Returns:
        The strap; None when the pack's mass is not known.

    Source:
        Statics; strap figures from memory.

    Example:
        >>> strap_hold(loads, needed=6.0, builds=1).name
        'pack strap opens'
    """
    if loads.pack_mass <= 0.0:
        return None
    skid = stopping_load_factor(loads.stall_speed, SKID_DISTANCE)
    factor = max(negative_load_factor(needed) + 1.0, skid)
    load = loads.pack_mass * GRAVITY * factor
    hold = STRAP_SHEAR * STRAP[0] * STRAP[1]
    return Fixing(
        "fixing_pack_strap",
        "pack strap opens",
        "pack tray",
        np.full(builds, hold / load),
        f"{factor:.1f} g pull the pack with {load:.1f}\u00a0N; a {1000 * STRAP[0]:.0f}\u00a0mm "
        f"strap with {1000 * STRAP[1]:.0f}\u00a0mm of hook on loop holds {hold:.0f}\u00a0N.",
        "strap figures from memory",
    )


def grip_hold(loads: LoadCase, *, figures: Figures, faces: int) -> Fixing | None:
    """Strength over load of the fuselage between finger and thumb when the plane is thrown.

    a = V² / (2 s); squeeze = (m (a + g) + thrust) / (2 mu); hold: foam under the finger tips, and
    with paper on, its shear round their rim.

    Args:
        loads: Numbers of the plane. [-]
        figures: Doubted figures. [-]
        faces: Papers on the board. [-]

    Returns:
        The grip; None when the throw is not known.

    Source:
        Kinematics; reproduced in tests/validation/test_load_factors.py; friction from memory.

    Example:
        >>> grip_hold(loads, figures=f, faces=2).name
        'fingers dent the fuselage'
    """
    if loads.throw_speed <= 0.0:
        return None
    factor = stopping_load_factor(loads.throw_speed, THROW_TRAVEL)
    force = loads.mass * GRAVITY * math.hypot(factor, 1.0) + MOST_THRUST * loads.static_thrust
    squeeze = force / (2.0 * GRIP_FRICTION)
    rim = 2.0 * math.sqrt(math.pi * GRIP_PADS)
    foam = figures["board.core_compressive_strength"] * GRIP_PADS
    # The paper spreads the pads: foam is sheared round their rim too.
    rim_hold = min(faces, 1) * figures["board.core_shear_strength"] * figures["board.thickness"]
    ratios = ((foam + rim_hold * rim) / squeeze).ravel()
    return Fixing(
        "launch_grip",
        "fingers dent the fuselage",
        "fuselage, where it is held",
        ratios,
        f"A throw to {loads.throw_speed:.1f}\u00a0m/s takes {factor:.1f} g and "
        f"{force:.0f}\u00a0N; finger and thumb must squeeze with {squeeze:.0f}\u00a0N, and the "
        f"board under them dents at {float(ratios[0]) * squeeze:.0f}\u00a0N.",
        "kinematics; friction from memory",
    )
