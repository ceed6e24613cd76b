"""What every wing piece needs to know: frames, board, joints, ailerons."""

import math
from dataclasses import dataclass

from foamwright.design.model import Design
from foamwright.parts.joints import LETTERS, split_places
from foamwright.parts.linkage import servo_size
from foamwright.parts.material import BoardWork
from foamwright.parts.wing_frame import PanelFrame, frame_at, panel_frames
from foamwright.shape.model import Airframe
from foamwright.shape.surfaces import aileron_extent
from foamwright.stock.model import Stock

SERVO_EASE = 0.001  # m of play around a servo; common practice


@dataclass(frozen=True, slots=True)
class AileronCut:
    """Where ailerons are cut out of the trailing edge.

    Attributes:
        start: Inner end along the half span. [m]
        end: Outer end along the half span. [m]
        chord: Hinged chord. [m]
    """

    start: float
    end: float
    chord: float


@dataclass(frozen=True, slots=True)
class WingOpening:
    """A hole in the wing's underside for an aileron servo that lies on its side.

    Attributes:
        side: 1 right, -1 left, 0 across the centre line.
        place: Its middle along the half span. [m]
        behind: Its middle behind the leading edge. [m]
        long: Along the chord. [m]
        wide: Along the span. [m]
        label: In trade words.
    """

    side: int
    place: float
    behind: float
    long: float
    wide: float
    label: str


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of one panel that is one piece of board.

    Attributes:
        frame: Its panel.
        start: Inner end along the half span. [m]
        end: Outer end along the half span. [m]
        tag: For ids: "1", "2a", ...
        spliced: Whether its outer end is a splice within the panel.
    """

    frame: PanelFrame
    start: float
    end: float
    tag: str
    spliced: bool

    @property
    def length(self) -> float:
        """Length along the half span [m]."""
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class WingRun:
    """The right half of the wing, ready to be cut up.

    Attributes:
        design: The design.
        airframe: Its shape.
        board: Its board.
        frames: Panels, root outwards.
        half_span: Along the panels. [m]
        spans: Stretches of skin that each fit a board.
        aileron: Cut-out; None without ailerons.
        openings: Holes for aileron servos.
    """

    design: Design
    airframe: Airframe
    board: BoardWork
    frames: tuple[PanelFrame, ...]
    half_span: float
    spans: tuple[Span, ...]
    aileron: AileronCut | None
    openings: tuple[WingOpening, ...]

    @property
    def skin_joints(self) -> tuple[float, ...]:
        """Joints of the skin along the half span [m], the centre included."""
        return (0.0, *(span.end for span in self.spans[:-1]))


def _openings(
    design: Design, frames: tuple[PanelFrame, ...], cut: AileronCut | None, stock: Stock
) -> tuple[WingOpening, ...]:
    if cut is None:
        return ()
    found: list[WingOpening] = []
    for servo in design.servo:
        if not servo.role.startswith("aileron"):
            continue
        place = abs(servo.side)
        if servo.role != "aileron" and place == 0.0:
            place = 0.5 * (cut.start + cut.end)
        left = servo.role.endswith("left") or servo.side < 0.0
        station = frame_at(frames, place).station(place)
        behind = 0.5 * station.chord
        if servo.position is not None:
            behind = servo.position - float(station.edge[0])
        long, _, tall = servo_size(servo, stock)
        side = 0 if place < 0.5 * tall else (-1 if left else 1)
        found.append(
            WingOpening(
                side, place, behind, long + SERVO_EASE, tall + SERVO_EASE, f"{servo.role} servo"
            )
        )
    return tuple(found)


def wing_run(design: Design, airframe: Airframe, board: BoardWork, stock: Stock) -> WingRun:
    """Lay out the right half of the wing.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        board: Its board. [-]
        stock: The stock tables. [-]

    Returns:
        Frames, pieces and cut-outs.

    Raises:
        DesignError: A panel cannot be split on this board.

    Source:
        Definition.

    Example:
        >>> round(wing_run(design, airframe, board, stock).half_span, 3)
        0.584
    """
    frames = panel_frames(airframe.wing)
    half = frames[-1].start + frames[-1].length
    cut = None
    if design.wing.aileron is not None and airframe.wing.controls:
        start, end = aileron_extent(design.wing.aileron, half)
        cut = AileronCut(start, end, airframe.wing.controls[0].chord)
    openings = _openings(design, frames, cut, stock)
    spans: list[Span] = []
    for index, frame in enumerate(frames):
        holes = tuple(
            (o.place - 0.5 * o.wide - frame.start, o.place + 0.5 * o.wide - frame.start)
            for o in openings
        )
        cuts = split_places(
            frame.length, board.longest, keep_out=holes, field=f"wing.panel.{index}.span"
        )
        ends = [0.0, *cuts, frame.length]
        for number in range(len(ends) - 1):
            letter = LETTERS[number] if cuts else ""
            spans.append(
                Span(
                    frame=frame,
                    start=frame.start + ends[number],
                    end=frame.start + ends[number + 1],
                    tag=f"{index + 1}{letter}",
                    spliced=number < len(cuts),
                )
            )
    return WingRun(design, airframe, board, frames, half, tuple(spans), cut, openings)


def edge_depths(run: WingRun, span: Span) -> list[tuple[float, float]]:
    """Places along a stretch's trailing edge with the depth of the aileron cut-out there.

    Args:
        run: The wing. [-]
        span: The stretch. [-]

    Returns:
        (place, depth) from the inner to the outer end; two rows at a step. [m]

    Source:
        Definition.

    Example:
        >>> edge_depths(run, span)  # doctest: +SKIP
        [(0.0, 0.0), (0.04, 0.0), (0.04, 0.035), (0.58, 0.035)]
    """
    cut = run.aileron
    if cut is None or cut.end <= span.start + 1e-6 or cut.start >= span.end - 1e-6:
        return [(span.start, 0.0), (span.end, 0.0)]
    rows: list[tuple[float, float]] = []
    if cut.start > span.start + 1e-6:
        rows += [(span.start, 0.0), (cut.start, 0.0), (cut.start, cut.chord)]
    else:
        rows.append((span.start, cut.chord))
    if cut.end < span.end - 1e-6:
        rows += [(cut.end, cut.chord), (cut.end, 0.0), (span.end, 0.0)]
    else:
        rows.append((span.end, cut.chord))
    return rows


def end_bevels(run: WingRun, span: Span) -> tuple[float, float]:
    """Angles at which a panel's inner and outer end are cut so that they close on their neighbours.

    Half the change of dihedral on each side of a break; on the centre line the whole dihedral.

    Args:
        run: The wing. [-]
        span: A stretch of the panel. [-]

    Returns:
        Inner and outer, in degrees as the builder sets them. [deg], [deg]

    Source:
        Geometry.

    Example:
        >>> [round(x, 2) for x in end_bevels(run, run.spans[0])]
        [2.0, 0.0]
    """
    index = run.frames.index(span.frame)
    rise = [
        math.degrees(math.asin(max(-1.0, min(1.0, float(f.station(f.start).out[2])))))
        for f in run.frames
    ]
    inner = rise[0] if index == 0 else 0.5 * (rise[index] - rise[index - 1])
    outer = 0.5 * (rise[index + 1] - rise[index]) if index + 1 < len(rise) else 0.0
    return inner, outer
