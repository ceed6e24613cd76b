"""Papers and foam of one section: the folded skin, flat layers, strips of board."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.design.model import Design
from foamwright.shape.model import WingSection

type Array = NDArray[np.float64]

PIECES = 240  # that a folded skin is cut into along its middle line, under 2 mm each


@dataclass(frozen=True, slots=True)
class Sums:
    """Sums over a few rectangles.

    Attributes:
        area: Per metre of thickness for papers. [m² or m]
        first: Area times height. [m³ or m²]
        second: Area times height squared. [m⁴ or m³]
    """

    area: float
    first: float
    second: float


type Span = tuple[Sums, float, float]  # with the lowest and the highest fibre


def piece_sums(area: Array, height: Array, own: Array | float = 0.0) -> Sums:
    """Sums over rectangles at their heights.

    Args:
        area: Of each. [m² or m]
        height: Of its middle. [m]
        own: Its second moment about its own middle. [m⁴ or m³]

    Returns:
        The sums.

    Source:
        Parallel-axis rule.

    Example:
        >>> piece_sums(np.array([2.0]), np.array([3.0])).second
        18.0
    """
    return Sums(
        float(np.sum(area)),
        float(np.sum(area * height)),
        float(np.sum(area * height**2 + own)),
    )


@dataclass(frozen=True, slots=True)
class Skin:
    """Skin of one panel at its own chord.

    Attributes:
        papers: Sums of the papers per metre of their thickness.
        foam: Sums of the foam.
        depth: From the underside to the middle of the top skin. [m]
        cell_area: Enclosed by the skin's middle line; 0 when open. [m²]
        cell_length: Of that line. [m]
        paper_heights: Of flat layers: every paper above the stack's middle. [m]
    """

    papers: Span
    foam: Span
    depth: float
    cell_area: float
    cell_length: float
    paper_heights: tuple[float, ...]


def folded_skin(section: WingSection, design: Design, t: float, faces: int) -> Skin:
    """Papers and foam of a folded skin.

    The inner paper is gone under both bevels and in the fold at the nose; there the foam is gone
    too.

    Args:
        section: As it comes off the building board. [-]
        design: Not asked: all is in the section. [-]
        t: Thickness of the board. [m]
        faces: Papers on it. [-]

    Returns:
        The skin.

    Source:
        Definition of the build.

    Example:
        >>> round(folded_skin(section, design, 0.005, 2).depth, 3)
        0.018
    """
    del design
    path = np.array(section.skin_path)
    apart = np.hypot(*np.diff(path, axis=0).T) > 1e-9  # nodes of the bent strip stand twice
    path = path[np.concatenate([[True], apart])]
    ends = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(path, axis=0).T))])
    even = np.linspace(0.0, ends[-1], PIECES + 1)
    path = np.column_stack([np.interp(even, ends, path[:, axis]) for axis in (0, 1)])
    step = np.diff(path, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    middle = 0.5 * (path[1:] + path[:-1])
    outward = np.column_stack([-step[:, 1], step[:, 0]]) / length[:, None]
    along = np.cumsum(length) - 0.5 * length
    bevel = section.lines[0].at
    beveled = (along < bevel) | (along > float(length.sum()) - bevel)
    nose = middle[:, 0] < t
    inside = ~beveled & ~nose
    height = middle[:, 1]
    outer = height + 0.5 * t * outward[:, 1]
    inner = height - 0.5 * t * outward[:, 1]
    paper = np.concatenate([length if faces else 0.0 * length, (faces == 2) * length * inside])
    at = np.concatenate([outer, inner])
    foam = length * t * np.where(beveled, 0.5, np.where(nose, 0.0, 1.0))
    foam_at = height + np.where(beveled, 0.25 * t * outward[:, 1], 0.0)
    tilt = np.abs(step[:, 0]) / length  # a level strip bends about its own middle
    own = foam * (t**2 * tilt**2 + (length * (1.0 - tilt)) ** 2) / 12.0
    low, high = float(outer.min()), float(outer.max())
    x, z = path[:, 0], path[:, 1]
    area = 0.5 * abs(float(x @ np.roll(z, -1) - z @ np.roll(x, -1)))
    top = outward[:, 1] > 0.3
    return Skin(
        papers=(piece_sums(paper, at), low, high),
        foam=(piece_sums(foam, foam_at, own), low, high),
        depth=_share_below(height[top & inside], 0.8) - low,
        cell_area=area,
        cell_length=float(length.sum()),
        paper_heights=(),
    )


def layered_skin(section: WingSection, design: Design, t: float, faces: int) -> Skin:
    """Papers and foam of flat layers from the leading edge, the bottom one full.

    Args:
        section: As it comes off the building board. [-]
        design: For its steps. [-]
        t: Thickness of the board. [m]
        faces: Papers on it. [-]

    Returns:
        The skin, heights above the underside.

    Source:
        Definition of the build.

    Example:
        >>> layered_skin(section, design, 0.005, 2).depth
        0.0025
    """
    steps = sorted(design.wing.steps, reverse=True) if design.wing.build == "stepped" else []
    width = section.chord * np.array([1.0, *steps])
    level = t * np.arange(len(width), dtype=np.float64)
    tops, lows = level + t, level
    both = np.concatenate([width, width])
    paper = both if faces == 2 else np.concatenate([width, 0.0 * width])
    if faces == 0:
        paper = 0.0 * both
    at = np.concatenate([tops, lows])
    foam = width * t
    high = float(tops[-1])
    stack = tuple((at - 0.5 * high)[paper > 0.0].tolist())
    return Skin(
        papers=(piece_sums(paper, at), 0.0, high),
        foam=(piece_sums(foam, level + 0.5 * t, foam * t**2 / 12.0), 0.0, high),
        depth=high - 0.5 * t,
        cell_area=0.0,
        cell_length=0.0,
        paper_heights=stack,
    )


def underside(section: WingSection, fraction: float) -> float:
    """Height of the outside of the bottom above the section's datum.

    Args:
        section: Of the wing. [-]
        fraction: Of the chord. [-]

    Returns:
        Height. [m]

    Source:
        Definition.

    Example:
        >>> round(underside(section, 0.3), 4)
        -0.0035
    """
    lower = np.array(section.lower)
    if section.build != "folded":
        return 0.0
    return float(np.interp(fraction, lower[:, 0], lower[:, 1])) * section.chord


def strip_sums(
    bottom: float, *, count: int, wide: float, t: float, flat: bool, faces: int
) -> tuple[Span, Span]:
    """Papers and foam of board strips that stand on a level.

    Args:
        bottom: The level. [m]
        count: Strips. [-]
        wide: Width of a strip. [m]
        t: Thickness of the board. [m]
        flat: Laid flat on each other, else side by side on edge. [-]
        faces: Papers on the board. [-]

    Returns:
        Papers per metre of their thickness, and foam.

    Source:
        Definition of the build.

    Example:
        >>> strip_sums(0.0, count=2, wide=0.02, t=0.005, flat=True, faces=2)[1][0].area
        0.0002
    """
    if flat:
        level = bottom + t * np.arange(count, dtype=np.float64)
        ends = np.concatenate([level, level + t])
        paper = np.full(2 * count, wide) if faces == 2 else np.full(2 * count, 0.5 * faces * wide)
        papers = piece_sums(paper, ends)
        area = np.full(count, wide * t)
        foam = piece_sums(area, level + 0.5 * t, area * t**2 / 12.0)
        return (papers, bottom, bottom + count * t), (foam, bottom, bottom + count * t)
    area = np.array([count * t * wide])
    middle = np.array([bottom + 0.5 * wide])
    paper = np.array([count * faces * wide])
    papers = piece_sums(paper, middle, paper * wide**2 / 12.0)
    foam = piece_sums(area, middle, area * wide**2 / 12.0)
    return (papers, bottom, bottom + wide), (foam, bottom, bottom + wide)


def _share_below(values: Array, share: float) -> float:
    """The value below which that share lies; np.percentile would load all of numpy.ma for it."""
    ranked = np.sort(values)
    return float(np.interp(share * (len(ranked) - 1), np.arange(len(ranked)), ranked))
