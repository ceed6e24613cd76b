"""Sections of the wing along its span: papers, foam, spar, sticks and tapes in a few groups."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design, Reinforcement
from foamwright.shape.model import Airframe, LiftingPanel
from foamwright.shape.section import spar_size
from foamwright.stock.model import Stock
from foamwright.strength.beams import rod_area, rod_second_moment
from foamwright.strength.named import rod_named, tape_named
from foamwright.strength.wing_pieces import (
    Span,
    folded_skin,
    layered_skin,
    piece_sums,
    strip_sums,
    underside,
)

type Array = NDArray[np.float64]

STATIONS = 15  # along the half span, besides the ends of what reinforces it
JUST_PAST = 1e-4  # m beyond the end of a reinforcement, where the bare section begins
FACES = {"both": 2, "one peeled": 1, "both peeled": 0}
TAPE_KINDS = ("mesh tape", "packing tape")


@dataclass(frozen=True, slots=True)
class Group:
    """Everything of one material in the section, at every station.

    Areas of papers are per metre of paper thickness, those of tapes per unit of modulus times
    thickness, so that doubted figures can be put in later.

    Attributes:
        kind: "paper", "foam", "rod" or "tape".
        stock: Name in stock; "" for the board.
        area: [m² or m]
        first: Area times height. [m³ or m²]
        second: Area times height squared. [m⁴ or m³]
        low: Lowest fibre above the section's datum. [m]
        high: Highest fibre. [m]
        name: In trade words.
    """

    kind: str
    stock: str
    area: Array
    first: Array
    second: Array
    low: Array
    high: Array
    name: str


@dataclass(frozen=True, slots=True)
class TopPanel:
    """A stretch of top skin between two lines that hold it.

    Attributes:
        width: Between the lines. [m]
        height: Mean height of its middle line. [m]
        name: In trade words.
    """

    width: Array
    height: Array
    name: str


@dataclass(frozen=True, slots=True)
class WingSections:
    """The wing's sections, root to tip along the half span.

    Attributes:
        places: Along the half span. [m]
        chords: [m]
        groups: What the sections are made of.
        panels: Stretches of top skin that may buckle; none in a wing of flat layers.
        depth: From the underside to the middle of the top skin, at the thickest. [m]
        cell_area: Enclosed by the skin; 0 when there is no closed cell. [m²]
        cell_length: Of the skin round it. [m]
        paper_heights: Of flat layers: every paper above the stack's middle. [m]
        web: Width of foam that carries the shear force. [m]
        web_height: Height of the same. [m]
        faces: Papers on the board.
        notes: What was assumed or left out.
    """

    places: Array
    chords: Array
    groups: tuple[Group, ...]
    panels: tuple[TopPanel, ...]
    depth: Array
    cell_area: Array
    cell_length: Array
    paper_heights: tuple[float, ...]
    web: Array
    web_height: Array
    faces: int
    notes: tuple[str, ...]


def stations_of(design: Design, airframe: Airframe) -> tuple[Array, Array, NDArray[np.intp]]:
    """Places along the half span, chords there, and the panel that each lies on.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]

    Returns:
        Places [m], chords [m], panel numbers [-].

    Source:
        Definition.

    Example:
        >>> round(float(stations_of(design, airframe)[0][0]), 1)
        0.0
    """
    panels = airframe.wing.panels
    lengths = [math.hypot(p.tip[1] - p.root[1], p.tip[2] - p.root[2]) for p in panels]
    edges = np.concatenate([[0.0], np.cumsum(lengths)])
    half = float(edges[-1])
    ends = [design.wing.spar.extent * half]
    for item in design.wing.reinforcement:
        ends += [item.start - 2.0 * JUST_PAST, half if item.end is None else item.end]
    if design.wing.joint.brace is not None:
        ends.append(0.5 * design.wing.joint.brace_length)
    past = [end + JUST_PAST for end in ends if 0.0 < end + JUST_PAST < half]
    spread = np.linspace(0.0, half, STATIONS)
    # sorted(set()), as np.unique loads all of numpy.ma for it
    places = np.array(sorted({*spread.tolist(), *edges.tolist(), *past}))
    number = np.clip(np.searchsorted(edges, places - 1e-9) - 1, 0, len(panels) - 1)
    share = (places - edges[number]) / np.array(lengths)[number]
    root = np.array([p.root_chord for p in panels])[number]
    tip = np.array([p.tip_chord for p in panels])[number]
    return places, root + share * (tip - root), number


def wing_sections(design: Design, airframe: Airframe, stock: Stock) -> WingSections:
    """The wing's cross-sections, with all that runs along it where it runs.

    The section's heights are those of its panel's mean chord, its widths go with the chord.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]

    Returns:
        Groups of material at every station.

    Source:
        Definition of the builds.

    Example:
        >>> wing_sections(design, airframe, stock).faces
        2
    """
    places, chords, number = stations_of(design, airframe)
    panels = airframe.wing.panels
    stretch = chords / np.array([p.section.chord for p in panels])[number]
    t, faces = airframe.board_thickness, FACES[design.board.papers]
    folded = design.wing.build == "folded"
    read = folded_skin if folded else layered_skin
    skins = [read(panel.section, design, t, faces) for panel in panels]
    groups = [
        _along(kind, "", name, [getattr(s, field) for s in skins], (number, stretch))
        for kind, field, name in (
            ("paper", "papers", "paper"),
            ("foam", "foam", "foam"),
        )
    ]
    reach = design.wing.spar.extent * places[-1]
    spar_on = (places <= reach + 0.5 * JUST_PAST).astype(float)
    if design.wing.build != "stepped" and design.wing.spar.strips:
        groups += _spar(design, panels, t, faces, (number, spar_on))
    more, notes = _reinforcements(design, panels, stock, t, faces, (places, number))
    depth = np.array([s.depth for s in skins])[number]
    web, web_height = _web(design, chords, spar_on, depth, t)
    return WingSections(
        places=places,
        chords=chords,
        groups=(*groups, *more),
        panels=_top_panels(panels, design, t, (number, stretch, spar_on)) if folded else (),
        depth=depth,
        cell_area=np.array([s.cell_area for s in skins])[number] * stretch,
        cell_length=np.array([s.cell_length for s in skins])[number] * stretch,
        paper_heights=skins[0].paper_heights,
        web=web,
        web_height=web_height,
        faces=faces,
        notes=notes,
    )


def _along(
    kind: str,
    stock: str,
    name: str,
    sums: list[Span],
    where: tuple[NDArray[np.intp], Array],
) -> Group:
    """Sums of every panel's section, put at the stations and stretched there."""
    number, stretch = where
    area, first, second, low, high = (
        np.array(values)[number]
        for values in (
            [s.area for s, _, _ in sums],
            [s.first for s, _, _ in sums],
            [s.second for s, _, _ in sums],
            [low for _, low, _ in sums],
            [high for _, _, high in sums],
        )
    )
    return Group(kind, stock, area * stretch, first * stretch, second * stretch, low, high, name)


def _spar(
    design: Design,
    panels: tuple[LiftingPanel, ...],
    t: float,
    faces: int,
    where: tuple[NDArray[np.intp], Array],
) -> list[Group]:
    spar = design.wing.spar
    tall = spar_size(design.wing, t)[0]
    both = []
    for panel in panels:
        under = underside(panel.section, spar.position)
        bottom = under + t if panel.section.build == "folded" else under - tall
        both.append(
            strip_sums(
                bottom,
                count=spar.strips,
                wide=spar.strip_width,
                t=t,
                flat=spar.laid == "flat",
                faces=faces,
            )
        )
    return [
        _along("paper", "", "spar paper", [papers for papers, _ in both], where),
        _along("foam", "", "spar foam", [foam for _, foam in both], where),
    ]


def _web(
    design: Design, chords: Array, spar_on: Array, depth: Array, t: float
) -> tuple[Array, Array]:
    """Width and height of the foam that carries the shear force."""
    if design.wing.build != "folded":
        return chords, depth
    # Without a spar it is the folded nose and the glued tail that hold the skins apart.
    wide = spar_size(design.wing, t)[1] if design.wing.spar.strips else 0.0
    return np.maximum(spar_on * wide, 2.0 * t), depth


def _top_panels(
    panels: tuple[LiftingPanel, ...],
    design: Design,
    t: float,
    where: tuple[NDArray[np.intp], Array, Array],
) -> tuple[TopPanel, ...]:
    """Top skin from nose to spar and from spar to bevel; without spar in one."""
    number, stretch, spar_on = where
    rows: list[tuple[float, ...]] = []
    for panel in panels:
        section = panel.section
        path = np.array(section.skin_path)
        turn = int(np.argmin(path[:, 0]))
        top = path[turn:]
        tail = section.chord - section.lines[0].at
        box = section.spar_box
        front, rear = (t, t) if box is None else (max(box[0], t), box[2])
        ahead = top[(top[:, 0] >= t) & (top[:, 0] <= max(front, 2.0 * t)), 1].mean()
        behind = top[(top[:, 0] >= rear) & (top[:, 0] <= tail), 1].mean()
        whole = top[(top[:, 0] >= t) & (top[:, 0] <= tail), 1].mean()
        rows.append((front - t, ahead, tail - rear, behind, tail - t, whole))
    table = np.array(rows)[number]
    on = spar_on > 0.0
    has_spar = design.wing.spar.strips > 0
    behind_width = np.where(on & has_spar, table[:, 2], table[:, 4]) * stretch
    behind_height = np.where(on & has_spar, table[:, 3], table[:, 5])
    found = [TopPanel(behind_width, behind_height, "top panel behind the spar")]
    if has_spar and float(table[:, 0].min()) > t:
        ahead_width = np.where(on, table[:, 0], 1e-3) * stretch
        found.append(TopPanel(ahead_width, table[:, 1], "top panel ahead of the spar"))
    return tuple(found)


def _level(
    item: Reinforcement, panel: LiftingPanel, design: Design, t: float, tall: float
) -> float:
    """Height of a reinforcement's middle above the section's datum."""
    section = panel.section
    under = underside(section, design.wing.spar.position)
    inner = under + t if section.build == "folded" else under
    spar = spar_size(design.wing, t)[0]
    upper = np.array(section.upper)
    if section.build == "folded":
        over = float(np.interp(design.wing.spar.position, upper[:, 0], upper[:, 1])) * section.chord
    else:
        steps = design.wing.steps if section.build == "stepped" else ()
        over = t * (1 + sum(step > design.wing.spar.position for step in steps))
    if item.place == "spar top":
        return inner + spar - 0.5 * tall
    if item.place == "skin bottom":
        return under - 0.5 * tall
    if item.place == "skin top":
        return over + 0.5 * tall
    return inner + 0.5 * tall


def _reinforcements(
    design: Design,
    panels: tuple[LiftingPanel, ...],
    stock: Stock,
    t: float,
    faces: int,
    where: tuple[Array, NDArray[np.intp]],
) -> tuple[list[Group], tuple[str, ...]]:
    places, number = where
    groups: list[Group] = []
    notes: list[str] = []
    for item in design.wing.reinforcement:
        end = (design.wing.spar.extent * places[-1] or places[-1]) if item.end is None else item.end
        on = ((places >= item.start - JUST_PAST) & (places <= end + 0.5 * JUST_PAST)).astype(float)
        made, note = _reinforcement(item, design, panels, stock, (t, faces, end - item.start))
        if note:
            notes.append(note)
        groups += [
            _along(kind, name, words, sums, (number, on)) for kind, name, words, sums in made
        ]
    return groups, tuple(notes)


type _Made = tuple[str, str, str, list[Span]]


def _reinforcement(
    item: Reinforcement,
    design: Design,
    panels: tuple[LiftingPanel, ...],
    stock: Stock,
    board: tuple[float, int, float],
) -> tuple[list[_Made], str]:
    t, faces, length = board
    words = f"{item.kind}, {item.place}"
    if item.kind == "foam strip":
        wide = design.wing.spar.strip_width
        strips = [
            strip_sums(
                _level(item, p, design, t, t) - 0.5 * t,
                count=1,
                wide=item.count * wide,
                t=t,
                flat=True,
                faces=faces,
            )
            for p in panels
        ]
        return [
            ("paper", "", f"{words}, paper", [papers for papers, _ in strips]),
            ("foam", "", f"{words}, foam", [foam for _, foam in strips]),
        ], ""
    if item.kind in TAPE_KINDS:
        tape = tape_named(item, stock)
        sums = []
        for p in panels:
            at = _level(item, p, design, t, 0.0)
            width = np.array([item.count * tape.width])
            sums.append((piece_sums(width, np.array([at])), at, at))
        return [("tape", tape.name, words, sums)], ""
    rod = rod_named(item, stock)
    count, note = float(item.count), ""
    if rod.length < length - 1e-6:
        count -= 1.0  # every joint cuts one of them
        note = (
            f"The {words} is {1000 * length:.0f}\u00a0mm long but sold in "
            f"{1000 * rod.length:.0f}\u00a0mm: "
            f"of {item.count} side by side one is cut at every joint and not counted."
        )
    area = np.array(
        [count * rod_area(rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round)]
    )
    own = count * rod_second_moment(
        rod.width, height=rod.height, bore=rod.bore, round_rod=rod.round
    )
    sums = []
    for p in panels:
        at = _level(item, p, design, t, rod.height)
        half = 0.5 * rod.height
        sums.append((piece_sums(area, np.array([at]), own), at - half, at + half))
    return [("rod", rod.name, words, sums)], note
