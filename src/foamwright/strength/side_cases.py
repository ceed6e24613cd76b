"""Joints along the span, and loads that are not a pull-up: pushed, landed, thrown, fluttering."""

import math
import re
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.parts.model import PartsList
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock
from foamwright.strength.aeroelastic import flutter_speed
from foamwright.strength.cases import Figures
from foamwright.strength.fixings import Fixing, controls_hold, dowels, grip_hold, strap_hold
from foamwright.strength.found import Found, Wing
from foamwright.strength.hold import Hold
from foamwright.strength.landing import boom_ratio, landing_load_factor, skid_ratio
from foamwright.strength.loads import manoeuvre_load_factor, span_load
from foamwright.strength.model import LoadCase
from foamwright.strength.negative import WORDS, negative_limits
from foamwright.strength.tail import SOUND
from foamwright.strength.wing import NEVER, tip_bend
from foamwright.strength.wing_joint import joint_strength
from foamwright.strength.wing_section import FACES

type Array = NDArray[np.float64]

SKIN = re.compile(r"^wing-skin-(?P<panel>\d+)(?P<letter>[a-h])-right$")
WING_SAG = 0.4  # of the tip's deflection: how far the wing's middle of mass goes down; assumed
FLOWN_TO = 6.0  # g taken for the pack's strap; common practice, no source


@dataclass(frozen=True, slots=True)
class WingJoint:
    """A joint across the wing.

    Attributes:
        id: Of its failure.
        name: Of its failure, in trade words.
        where: On the plane.
        place: Along the half span. [m]
        braced: Whether a brace crosses it.
    """

    id: str
    name: str
    where: str
    place: float
    braced: bool


def joint_places(
    design: Design, airframe: Airframe, parts: PartsList | None
) -> tuple[WingJoint, ...]:
    """The centre joint, joints at breaks of the dihedral, and splices of long skins.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        parts: Everything the plane is made of; None leaves out the splices. [-]

    Returns:
        The joints.

    Source:
        Definition of the build.

    Example:
        >>> joint_places(design, airframe, None)[0].id
        'centre_joint'
    """
    joints = [WingJoint("centre_joint", "centre joint opens", "wing centre joint", 0.0, True)]
    reach = 0.0
    for number, (before, after) in enumerate(pairwise(design.wing.panel), start=2):
        reach += before.span
        if before.dihedral != after.dihedral:
            name = f"joint of panel {number} opens"
            joints.append(
                WingJoint(f"panel_joint_{number}", name, f"wing panel {number}", reach, True)
            )
    for number, place in enumerate(_splices(airframe, parts), start=1):
        words = f"skin splice {1000 * place:.0f}\u00a0mm out opens"
        joints.append(WingJoint(f"splice_joint_{number}", words, "wing skin splice", place, False))
    return tuple(joints)


def _splices(airframe: Airframe, parts: PartsList | None) -> list[float]:
    """Places along the half span where two skins of one panel butt."""
    ends: dict[str, list[tuple[str, float, float]]] = {}
    for part in parts.parts if parts is not None else ():
        match = SKIN.match(part.id)
        if match is None or not part.facets:
            continue
        y = np.concatenate(
            [
                facet.origin[1]
                + np.asarray(facet.polygon.exterior.coords)
                @ np.array((facet.along[1], facet.across[1]))
                for facet in part.facets
            ]
        )
        row = (match["letter"], float(y.min()), float(y.max()))
        ends.setdefault(match["panel"], []).append(row)
    panels = airframe.wing.panels
    lengths = [math.hypot(p.tip[1] - p.root[1], p.tip[2] - p.root[2]) for p in panels]
    out = [panels[0].root[1], *(p.tip[1] for p in panels)]
    along = np.concatenate([[0.0], np.cumsum(lengths)])
    return [
        float(np.interp(0.5 * (inner[2] + outer[1]), out, along))
        for rows in ends.values()
        for inner, outer in pairwise(sorted(rows))
    ]


def side_cases(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    *,
    wing: Wing,
    figures: Figures,
    loads: LoadCase,
    parts: PartsList | None,
    hold: Hold,
) -> list[Found]:
    """Every way to break that is not a pull-up.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        wing: The wing's sums for a pull-up. [-]
        figures: Doubted figures. [-]
        loads: Numbers of the plane. [-]
        parts: Everything the plane is made of; without it the boom's landing is left out. [-]
        hold: What holds the wing. [-]

    Returns:
        The failures: negative ones in g, the others as strength over load.

    Source:
        docs/physics/strength.md.

    Example:
        >>> side_cases(design, airframe, stock, wing=w, figures=f, loads=l, parts=p,
        ...     hold=h)[0].id  # doctest: +SKIP
        'negative_wing'
    """
    faces = FACES[design.board.papers]
    found = _pushed(design, airframe, stock, wing, figures, loads)
    boom = boom_ratio(design, airframe, parts, figures=figures) if parts is not None else None
    if boom is not None:
        found.append(
            Found(
                "landing_fuselage",
                "fuselage creases behind the wing in a landing",
                "fuselage",
                boom[0],
                boom[1],
                "kinematics, transformed section",
            )
        )
    if hold.seat is not None:
        ratios, why = skid_ratio(hold.seat, loads=loads, lands_at=loads.stall_speed)
        found.append(
            Found(
                "landing_bands", "wing slides off in a skid", "wing saddle", ratios, why, "assumed"
            )
        )
    small: list[Fixing | None] = list(
        controls_hold(design, airframe, figures=figures, loads=loads, faces=faces)
    )
    if hold.pull is not None:
        small += dowels(design, stock, figures=figures, pull=hold.pull, faces=faces)
    needed = min(manoeuvre_load_factor(loads.top_speed, loads.stall_speed), FLOWN_TO)
    small.append(strap_hold(loads, needed=needed, builds=figures.builds))
    small.append(grip_hold(loads, figures=figures, faces=faces))
    found += [
        Found(f.id, f.name, f.place, f.ratios, f.why, f.source) for f in small if f is not None
    ]
    return [*found, *_flutter(airframe, wing, loads)]


def _pushed(
    design: Design,
    airframe: Airframe,
    stock: Stock,
    wing: Wing,
    figures: Figures,
    loads: LoadCase,
) -> list[Found]:
    """Skins and centre joint with the tips bent down: by a push, and by a landing."""
    limits = negative_limits(wing.sections, figures, bending=wing.bending)
    names, table = list(limits), np.array(list(limits.values()))
    lowest = table.min(axis=0)
    kind = WORDS[names[int(np.argmin(table[:, 0, :].min(axis=1)))]]
    joint = joint_strength(
        design,
        airframe,
        stock,
        sections=wing.sections,
        figures=figures,
        station=0,
        braced=True,
        temperature=loads.temperature,
    )
    root = np.maximum(wing.moment[:, 0], 1e-9)
    factor, thump = _thump(wing, loads)
    # At the very tip the wing's own mass may outweigh its lift: no strength follows from that.
    bent = (thump > 0.01 * thump[0]) & (wing.moment > 0.0)
    landed = np.where(bent, lowest * wing.moment / np.where(bent, thump, 1.0), NEVER).min(axis=1)
    holds = lowest.min(axis=1)
    joint_why = (
        f"Bent down, the centre joint holds {float(joint.moment_down[0]):.2f}\u00a0N m: "
        "the tape lies under it and does not pull."
    )
    cfr = "[CFR-23] 23.337(b)"
    return [
        Found(
            "negative_wing",
            kind,
            "wing spar",
            holds,
            f"Pushed or upside down the {kind} at {float(holds[0]):.1f} g.",
            cfr,
        ),
        Found(
            "negative_centre",
            "centre joint opens on top",
            "wing centre joint",
            joint.moment_down / root,
            joint_why,
            cfr,
        ),
        Found(
            "landing_wing",
            f"{kind} in a landing",
            "wing spar",
            landed,
            f"A landing of {factor:.0f} g bends the wing down by its own mass with "
            f"{float(thump[0]):.2f}\u00a0N m at the root; it holds {float(landed[0]):.1f} times "
            "that.",
            "kinematics, transformed section",
        ),
        Found(
            "landing_centre",
            "centre joint opens on top in a landing",
            "wing centre joint",
            joint.moment_down / float(thump[0]),
            joint_why,
            "kinematics, statics",
        ),
    ]


def _thump(wing: Wing, loads: LoadCase) -> tuple[float, Array]:
    """Deceleration of the wing in a landing, and how far it bends the wing down. [-], [N m]."""
    places, chords = wing.sections.places, wing.sections.chords
    own = span_load(places, chords, mass=0.0, wing_mass=max(loads.wing_mass, 1e-6))
    weight = -own.moment
    sag = WING_SAG * float(tip_bend(places, weight / wing.bending.stiffness[:1])[0])
    factor = landing_load_factor(sag)
    # Lift goes on carrying one g, so only what is beyond it bends the wing down.
    return factor, np.maximum(factor * weight - wing.load.moment, 0.02 * factor * weight)


def _flutter(airframe: Airframe, wing: Wing, loads: LoadCase) -> list[Found]:
    """The rule for plates asked of the wing, with the plate that twists alike."""
    places, chords = wing.sections.places, wing.sections.chords
    half = float(places[-1])
    mean = float(np.trapezoid(chords, places)) / half
    section = airframe.wing.panels[0].section
    thick = section.thickness_ratio * mean
    twist = np.trapezoid(wing.twist_stiffness, places, axis=1) / half
    critical = np.asarray(
        flutter_speed(
            3.0 * twist / (mean * thick**3),
            aspect_ratio=half / mean,
            taper=float(chords[-1] / chords[0]),
            thickness_ratio=thick / mean,
            sound=SOUND,
        )
    )
    ratios = critical / loads.top_speed
    why = (
        f"By the rule for plates the wing flutters at {float(critical[0]):.0f}\u00a0m/s; flown to "
        f"{loads.top_speed:.0f}\u00a0m/s. The rule is good to 30 %."
    )
    return [Found("flutter_wing", "wing flutters", "wing", ratios, why, "[TN4197]")]
