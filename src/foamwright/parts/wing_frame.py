"""Places on the right wing: along the half span, along the chord, above the table."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.parts.piece import Flat
from foamwright.shape.model import LiftingPanel, LiftingSurface
from foamwright.shape.planform import panel_length

type Array = NDArray[np.float64]

X_AXIS = np.array([1.0, 0.0, 0.0])


@dataclass(frozen=True, slots=True)
class Station:
    """One place along the half span.

    Attributes:
        edge: Leading edge. [m]
        chord: [m]
        out: Unit vector along the panel, square to x.
        aft: Unit vector along the chord line.
        up: Unit vector square to the chord line.
        bottom_angle: Of the flat bottom against the chord line. [rad]
    """

    edge: Array
    chord: float
    out: Array
    aft: Array
    up: Array
    bottom_angle: float

    def at(self, behind: float, above: float = 0.0) -> Array:
        """Point in the chord frame, metres behind the leading edge and above the chord line."""
        return self.edge + behind * self.aft + above * self.up


@dataclass(frozen=True, slots=True)
class PanelFrame:
    """One right-hand panel with its span along the half wing.

    Attributes:
        panel: The panel.
        start: Distance of its root along the half span. [m]
        length: Along the panel. [m]
        sweep: Of the leading edge in the panel's plane. [rad]
    """

    panel: LiftingPanel
    start: float
    length: float
    sweep: float

    def station(self, place: float) -> Station:
        """Station at a distance [m] along the half span, extrapolating beyond the panel."""
        panel = self.panel
        share = (place - self.start) / self.length
        root, tip = np.array(panel.root), np.array(panel.tip)
        rise = (tip - root)[1:] / self.length
        out = np.array([0.0, *rise])
        normal = np.array([0.0, -rise[1], rise[0]])
        twist = panel.root_twist + share * (panel.tip_twist - panel.root_twist)
        cos, sin = math.cos(twist), math.sin(twist)
        return Station(
            edge=root + share * (tip - root),
            chord=panel.root_chord + share * (panel.tip_chord - panel.root_chord),
            out=out,
            aft=cos * X_AXIS - sin * normal,
            up=sin * X_AXIS + cos * normal,
            bottom_angle=panel.section.bottom_angle,
        )


def panel_frames(surface: LiftingSurface) -> tuple[PanelFrame, ...]:
    """The right-hand panels of a surface, root outwards.

    Args:
        surface: Wing or stab. [-]

    Returns:
        One frame a panel.

    Source:
        Definition.

    Example:
        >>> panel_frames(airframe.wing)[0].start
        0.0
    """
    frames: list[PanelFrame] = []
    start = 0.0
    for panel in surface.panels:
        length = panel_length(panel)
        sweep = math.atan2(panel.tip[0] - panel.root[0], length)
        frames.append(PanelFrame(panel, start, length, sweep))
        start += length
    return tuple(frames)


def frame_at(frames: tuple[PanelFrame, ...], place: float) -> PanelFrame:
    """The panel that holds a place along the half span.

    Args:
        frames: Root outwards. [-]
        place: Distance along the half span. [m]

    Returns:
        Its frame.

    Source:
        Definition.

    Example:
        >>> frame_at(frames, 0.1).start  # doctest: +SKIP
        0.0
    """
    for frame in frames:
        if place <= frame.start + frame.length + 1e-9:
            return frame
    return frames[-1]


def unit(vector: Array) -> Array:
    """A vector of length one.

    Args:
        vector: Not zero. [any]

    Returns:
        Unit vector. [-]

    Source:
        Definition.

    Example:
        >>> unit(np.array([0.0, 3.0, 4.0])).tolist()
        [0.0, 0.6, 0.8]
    """
    return vector / math.sqrt(float(vector @ vector))


def bar(start: Array, end: Array, ring: Array, *, width_to: Array, thickness: float) -> Flat:
    """Place a rectangle (0, 0) to (length, width) with its middle line from start to end.

    Args:
        start: Middle of its inner end. [m]
        end: Middle of its outer end. [m]
        ring: The rectangle. [m]
        width_to: Direction that v roughly points to. [-]
        thickness: [m]

    Returns:
        The placed rectangle.

    Source:
        Definition.

    Example:
        >>> ring = np.array([[0, 0], [2, 0], [2, 1], [0, 1.0]])
        >>> flat = bar(np.zeros(3), np.array([0, 2.0, 0]), ring, width_to=X_AXIS, thickness=0.005)
        >>> flat.origin.tolist()
        [-0.5, 0.0, 0.0]
    """
    along = unit(end - start)
    across = unit(width_to - (width_to @ along) * along)
    return Flat(ring, start - 0.5 * float(ring[:, 1].max()) * across, along, across, thickness)
