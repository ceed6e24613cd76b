"""A tighter layout by search over the true outlines, never worse than the draft."""

import json
import math
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from queue import Empty, SimpleQueue
from typing import Any

import shapely
from shapely import LinearRing, Polygon
from shapely.geometry.polygon import orient

from foamwright.parts.model import Part
from foamwright.sheets.draft import GAP, MARGIN, draft_on
from foamwright.sheets.model import Bench, Layout, Placement
from foamwright.sheets.place import (
    allowed_angles,
    better,
    board_parts,
    fits_size,
    make_layout,
    turned,
    turned_size,
    verify_layout,
)

MILLIMETRE = 1000.0  # per metre: the search runs in millimetres
SLACK = 1e-3  # mm added to gap and margin in the search, so that rounding never eats into them
POLL = 0.05  # s between looks at the search
PATIENCE = 5.0  # s without gain after which a search at the fewest possible boards is ended
START_UP = 10.0  # s beyond its time limit after which a search process is given up

type Progress = Callable[[Layout, float], None]


def search_layout(
    parts: tuple[Part, ...],
    board_length: float,
    board_width: float,
    *,
    gap: float = GAP,
    margin: float = MARGIN,
    time_limit: float = 15.0,
    progress: Progress | None = None,
    stop: Callable[[], bool] | None = None,
) -> Layout:
    """Search for the best layout on boards of one size; see `search_on`.

    Args:
        parts: All parts of the plane; those not cut from board are passed over. [-]
        board_length: Long side of the board. [m]
        board_width: Short side of the board. [m]
        gap: Least distance between parts. [m]
        margin: Least distance to the board's edge. [m]
        time_limit: Longest search. [s]
        progress: Called with each better layout and the seconds gone. [-]
        stop: Asked now and then; True ends the search. [-]

    Returns:
        A sound layout with fewest boards, then the largest clean left-over. [-]

    Source:
        As `search_on`.

    Example:
        >>> search_layout((), 0.762, 0.508).boards_used
        0
    """
    bench = Bench(board_length, board_width, gap, margin)
    return search_on(parts, bench, time_limit=time_limit, progress=progress, stop=stop)


def search_on(
    parts: tuple[Part, ...],
    bench: Bench,
    *,
    time_limit: float = 15.0,
    progress: Progress | None = None,
    stop: Callable[[], bool] | None = None,
) -> Layout:
    """Search for the best layout in a given time; keep the draft when no better one is found.

    The search runs in its own process; each solution is checked with `verify_layout` before it
    counts. An interrupt from the keyboard ends the search and keeps the best so far.

    Args:
        parts: All parts of the plane; those not cut from board are passed over. [-]
        bench: The boards; off-cuts are used first, smallest first. [-]
        time_limit: Longest search. [s]
        progress: Called with each better layout and the seconds gone. [-]
        stop: Asked now and then; True ends the search. [-]

    Returns:
        A sound layout with fewest whole boards, then the largest clean left-over. [-]

    Valid:
        Not repeatable run to run, as the search uses several threads against the clock: save what
        is accepted.

    Source:
        [PACKINGSOLVER].

    Example:
        >>> search_on((), Bench(0.762, 0.508, 0.003, 0.006)).boards_used
        0
    """
    best = draft_on(parts, bench)
    if time_limit <= 0 or not best.placements:
        return best
    if progress is not None:
        progress(best, 0.0)
    wanted = tuple(part for part in board_parts(parts) if part.id not in best.unplaced)
    search = _Search(wanted, best, parts, bench, _useful(bench, wanted))
    return _follow(search, time_limit, progress, stop)


@dataclass(slots=True)
class _Search:
    """The state of one running search."""

    wanted: tuple[Part, ...]
    best: Layout
    parts: tuple[Part, ...]
    bench: Bench
    offcuts: tuple[tuple[float, float], ...]  # those that take a part, smallest first

    def take(self, line: str) -> bool:
        """Take a reported solution when it is sound and better."""
        layout = self._layout(json.loads(line))
        if layout is None or not better(layout, self.best) or verify_layout(layout, self.parts):
            return False
        self.best = layout
        return True

    def _layout(self, found: dict[str, Any]) -> Layout | None:
        groups = [list(members) for members in _groups(self.wanted, self.bench).values()]
        numbers = self._numbers(found)
        offset = self.bench.margin + SLACK / MILLIMETRE
        placements: list[Placement] = []
        for kind, board, angle, over, x, y in found["spots"]:
            if not groups[int(kind)]:
                return None
            part = groups[int(kind)].pop(0)
            corner = turned(part.outline, angle, mirrored=bool(over)).exterior.coords[0]
            dx, dy = offset + x / MILLIMETRE - corner[0], offset + y / MILLIMETRE - corner[1]
            outline = turned(part.outline, angle, dx, dy, mirrored=bool(over))
            number = numbers[int(board)]
            placements.append(Placement(part.id, number, angle, dx, dy, outline, bool(over)))
        order = {part.id: index for index, part in enumerate(self.wanted)}
        placements.sort(key=lambda placement: order[placement.part_id])
        return make_layout(
            placements,
            self.bench,
            method="search",
            offcuts=[self.offcuts[kind] for kind in found["boards"] if kind < len(self.offcuts)],
            unplaced=self.best.unplaced,
        )

    def _numbers(self, found: dict[str, Any]) -> dict[int, int]:
        """Board as reported -> its number: whole boards first, then off-cuts."""
        kinds: list[int] = found["boards"]
        whole = [board for board, kind in enumerate(kinds) if kind >= len(self.offcuts)]
        pieces = [board for board, kind in enumerate(kinds) if kind < len(self.offcuts)]
        return {board: number for number, board in enumerate(whole + pieces)}

    def job(self, time_limit: float) -> dict[str, Any]:
        """Say what the search process reads."""
        items = [
            {
                "outline": _corners(_wound(members[0].outline).exterior),
                "holes": [_corners(hole)[::-1] for hole in _wound(members[0].outline).interiors],
                "angles": allowed_angles(members[0], self.bench),
                "either": members[0].either_face,
                "copies": len(members),
            }
            for members in _groups(self.wanted, self.bench).values()
        ]
        away = 2 * self.bench.margin * MILLIMETRE + 2 * SLACK
        sizes = [*self.offcuts, (self.bench.length, self.bench.width)]
        return {
            "boards": [
                [length * MILLIMETRE - away, width * MILLIMETRE - away] for length, width in sizes
            ],
            "gap": self.bench.gap * MILLIMETRE + SLACK if self.bench.gap > 0.0 else 0.0,
            "time_limit": time_limit,
            "items": items,
        }

    @property
    def fewest(self) -> int:
        """Whole boards that the areas alone need."""

        def usable(size: tuple[float, float]) -> float:
            return (size[0] - 2 * self.bench.margin) * (size[1] - 2 * self.bench.margin)

        area = sum(part.outline.area for part in self.wanted) - sum(map(usable, self.offcuts))
        return max(0, math.ceil(area / usable((self.bench.length, self.bench.width)) - 1e-9))


def _useful(bench: Bench, wanted: Sequence[Part]) -> tuple[tuple[float, float], ...]:
    """Off-cuts that take at least one part; the search must not be made to open others."""
    boxes = [
        turned_size(part.outline, angle) for part in wanted for angle in allowed_angles(part, bench)
    ]
    useful = [s for s in bench.offcuts if any(fits_size(box, s, bench.margin) for box in boxes)]
    return tuple(sorted(useful, key=lambda size: (size[0] * size[1], size)))


def _groups(wanted: Sequence[Part], bench: Bench) -> dict[bytes, list[Part]]:
    """Parts of one outline and one set of turns are one kind to the search."""
    groups: dict[bytes, list[Part]] = {}
    for part in wanted:
        turns = repr((allowed_angles(part, bench), part.either_face)).encode()
        groups.setdefault(shapely.to_wkb(_wound(part.outline)) + turns, []).append(part)
    return groups


def _wound(outline: Polygon) -> Polygon:
    """Outer ring counter-clockwise and holes clockwise, first corner kept."""
    return orient(outline)


def _corners(ring: LinearRing) -> list[list[float]]:
    return (shapely.get_coordinates(ring)[:-1] * MILLIMETRE).tolist()


def _follow(
    search: _Search,
    time_limit: float,
    progress: Progress | None,
    stop: Callable[[], bool] | None,
) -> Layout:
    """Start the search process and take its solutions until it ends or is ended."""
    lines: SimpleQueue[str] = SimpleQueue()
    worker = Path(__file__).with_name("search_worker.py")
    try:
        process = subprocess.Popen(  # noqa: S603 -- our own interpreter and file
            [sys.executable, "-P", str(worker)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            encoding="utf-8",
        )
    except OSError:  # no second process to be had: the draft stands
        return search.best
    reader = threading.Thread(target=_read, args=(process, search.job(time_limit), lines))
    reader.start()
    try:
        _watch(search, reader, lines, time_limit=time_limit, progress=progress, stop=stop)
    except KeyboardInterrupt:
        pass
    finally:
        process.kill()
        process.wait()
        reader.join()
    _drain(search, lines)
    return search.best


def _read(process: subprocess.Popen[str], job: dict[str, Any], lines: SimpleQueue[str]) -> None:
    if process.stdin is None or process.stdout is None:
        return
    try:
        with process.stdin, process.stdout:
            json.dump(job, process.stdin)
            process.stdin.close()
            for line in process.stdout:
                lines.put(line)
    except (OSError, ValueError):  # the process was ended under us
        return


def _watch(
    search: _Search,
    reader: threading.Thread,
    lines: SimpleQueue[str],
    *,
    time_limit: float,
    progress: Progress | None,
    stop: Callable[[], bool] | None,
) -> None:
    start = gained = time.monotonic()
    while reader.is_alive():
        reader.join(POLL)
        now = time.monotonic()
        if _drain(search, lines):
            gained = now
            if progress is not None:
                progress(search.best, now - start)
        done = search.best.boards_used <= search.fewest and now - gained > PATIENCE
        if done or now - start > time_limit + START_UP or (stop is not None and stop()):
            return


def _drain(search: _Search, lines: SimpleQueue[str]) -> bool:
    """Take the newest sound solution of those waiting; newer ones are better."""
    waiting: list[str] = []
    while True:
        try:
            waiting.append(lines.get_nowait())
        except Empty:
            break
    # A line cut short by the end of the process is passed over.
    whole = [line for line in waiting if line.endswith("}\n")]
    return any(search.take(line) for line in reversed(whole))
