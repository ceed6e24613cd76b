"""Writing a whole set of sheets: all of it, or nothing."""

from __future__ import annotations

import re
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.core.errors import OutputError
from foamwright.core.units import format_value
from foamwright.parts.model import Part
from foamwright.sheets.balance_marks import marked_parts
from foamwright.sheets.draft import bench_of, draft_on
from foamwright.sheets.drawing import board_drawings
from foamwright.sheets.file_set import write_set
from foamwright.sheets.gauges import gauges_of
from foamwright.sheets.model import Drawing, Heading, Layout, Machine
from foamwright.sheets.nest import search_on
from foamwright.sheets.paper import paper_of
from foamwright.sheets.store import layout_text, load_layout
from foamwright.sheets.words import boards_words, length_words, size_words

if TYPE_CHECKING:
    from foamwright.plane import Plane

FORMATS = ("pdf", "svg", "dxf")
SEARCHED = 0.9  # of the time asked for: a search that ran that long was not broken off
SEARCH_TIME = 15.0  # s, finds the last board to be saved on jobs of about 50 parts

EXACT = Machine()

type Say = Callable[[str], None]


def write_all(
    plane: Plane,
    folder: Path,
    *,
    paper: str = "a4",
    time_limit: float = SEARCH_TIME,
    formats: Sequence[str] = FORMATS,
    overwrite: bool = False,
    progress: Say | None = None,
    machine: Machine = EXACT,
) -> list[Path]:
    """Write every part of a plane full size, and keep the layout beside the drawings.

    A layout kept from before is used again as long as the parts are the same. Everything is drawn
    before the first file is written, and all files are written before the first takes its place; a
    file that is there already stops it unless overwriting is asked.

    Args:
        plane: The plane. [-]
        folder: Where the files go; made when missing. [-]
        paper: Paper of tiles and templates: "a4", "a3", "letter" or "tabloid". [-]
        time_limit: Longest search for a tighter layout; 0 takes the draft. [s]
        formats: Which of "pdf", "svg" and "dxf" to write. [-]
        overwrite: Whether files that are there may be replaced. [-]
        progress: Called with words on where the work is. [-]
        machine: What printer and cutter do to a drawing, to be made up for. [-]

    Returns:
        The files written, drawings first. [-]

    Raises:
        OutputError: A part fits no board, a file is in the way, or the folder cannot be written.

    Source:
        Definition.

    Example:
        >>> write_all(plane, Path("cob-sheets"))  # doctest: +SKIP
        [PosixPath('cob-sheets/brindle-cob-boards.pdf'), ...]
    """
    unknown = [name for name in formats if name not in FORMATS]
    if unknown:
        raise OutputError(f"There is no format '{unknown[0]}'; it must be one of pdf, svg, dxf.")
    paper_of(paper)
    say = progress or _quiet
    name = slug(plane.path.stem if plane.path else plane.design.name)
    _refuse(_expected(folder, name, formats, paper), overwrite)
    layout = chosen_layout(plane, folder / f"{name}-layout.json", time_limit=time_limit, say=say)
    say("drawing")
    files = _drawn(plane, layout, name, formats, (paper, machine))
    _refuse([folder / file for file in files], overwrite)
    files[f"{name}-layout.json"] = layout_text(layout, plane.parts.parts, bench_of(plane))
    written = write_set(folder, files)
    if overwrite and "svg" in formats:
        _clear_old_boards(folder, name, len(layout.sizes))
    return written


def chosen_layout(plane: Plane, kept: Path, *, time_limit: float, say: Say) -> Layout:
    """Take the layout kept from before when it still holds, else the draft or the search's.

    Args:
        plane: The plane. [-]
        kept: File of the kept layout. [-]
        time_limit: Longest search; 0 takes the draft. [s]
        say: Called with words on where the work is. [-]

    Returns:
        A sound layout. [-]

    Raises:
        OutputError: A part fits no board.

    Source:
        Definition.

    Example:
        >>> chosen_layout(plane, Path("kept.json"), time_limit=0.0, say=print)  # doctest: +SKIP
    """
    parts, bench = plane.parts.parts, bench_of(plane)
    draft = draft_on(parts, bench)
    _refuse_oversize(draft, parts, plane.design.units)
    before = load_layout(kept, parts, bench)
    searched = before is not None and before.method == "search"
    if before is not None and (searched or time_limit <= 0):
        return before
    if time_limit <= 0:
        return draft
    say("nesting")
    start = time.monotonic()
    found = search_on(
        parts,
        bench,
        time_limit=time_limit,
        progress=lambda found, seconds: say(
            f"nesting: {boards_words(found)} after {seconds:.0f} s (Ctrl-C keeps this)"
        ),
    )
    # A draft that a whole search did not better is kept as searched for: the next run prints it.
    whole = time.monotonic() - start > SEARCHED * time_limit
    return replace(found, method="search") if whole else found


def heading_of(plane: Plane) -> Heading:
    """Gather what the sheets say about a plane.

    Args:
        plane: The plane. [-]

    Returns:
        Name, board, units and all-up mass in words. [-]

    Source:
        Definition.

    Example:
        >>> heading_of(plane).plane
        'Brindle Cob'
    """
    design = plane.design
    mass = format_value(plane.balance.all_up_mass, "mass", design.units)
    return Heading(design.name, design.board.stock, design.units, f"all-up {mass}")


def slug(name: str) -> str:
    """Turn a name into one that every file system takes.

    Args:
        name: Any name. [-]

    Returns:
        Small letters, digits and hyphens. [-]

    Source:
        Definition.

    Example:
        >>> slug("Brindle Cob 2")
        'brindle-cob-2'
    """
    return re.sub(r"[^\w]+", "-", name.casefold()).strip("-_") or "plane"


def _quiet(_: str) -> None:
    return


def _expected(folder: Path, name: str, formats: Sequence[str], paper: str) -> list[Path]:
    """List the files that are sure to be written, so that a search is not made in vain."""
    sure = {
        "pdf": [
            f"{name}-boards.pdf",
            f"{name}-tiles-{paper.lower()}.pdf",
            f"{name}-parts-{paper.lower()}.pdf",
            f"{name}-printer-test-{paper.lower()}.pdf",
        ],
        "svg": [f"{name}-board-1.svg"],
        "dxf": [f"{name}-boards.dxf"],
    }
    return [folder / file for form in formats for file in sure[form]]


def _drawn(
    plane: Plane,
    layout: Layout,
    name: str,
    formats: Sequence[str],
    output: tuple[str, Machine],
) -> dict[str, bytes | str]:
    """Draw everything in memory: file name -> content."""
    parts = marked_parts(plane)
    heading = heading_of(plane)
    files: dict[str, bytes | str] = {}
    drawings = board_drawings(layout, parts, units=heading.units)
    if "pdf" in formats:
        files |= _pdf_files(plane, (layout, parts, drawings), (heading, name), output)
    kerf = output[1].kerf
    if "svg" in formats:
        from foamwright.sheets.svg import write_svg

        for index, drawing in enumerate(drawings):
            title = f"{heading.plane}: {drawing.name}"
            files[f"{name}-board-{index + 1}.svg"] = write_svg(drawing, title=title, kerf=kerf)
    if "dxf" in formats:
        from foamwright.sheets.dxf import write_dxf

        files[f"{name}-boards.dxf"] = write_dxf(drawings, title=heading.plane, kerf=kerf)
    return files


def _pdf_files(
    plane: Plane,
    drawn: tuple[Layout, Sequence[Part], Sequence[Drawing]],
    title: tuple[Heading, str],
    output: tuple[str, Machine],
) -> dict[str, bytes | str]:
    from foamwright.sheets.booklet import write_booklet_pdf
    from foamwright.sheets.calibration import write_calibration_pdf
    from foamwright.sheets.pdf import write_boards_pdf
    from foamwright.sheets.tiles import write_tiles_pdf

    (heading, name), paper, scale = title, paper_of(output[0]), output[1].printer_scale
    size, gauges = output[0].lower(), gauges_of(plane)
    layout, parts, drawings = drawn
    return {
        f"{name}-boards.pdf": write_boards_pdf(
            layout, parts, heading=heading, paper=paper, gauges=gauges, drawings=drawings
        ),
        f"{name}-tiles-{size}.pdf": write_tiles_pdf(
            layout,
            parts,
            heading=heading,
            paper=paper,
            gauges=gauges,
            drawings=drawings,
            printer_scale=scale,
        ),
        f"{name}-parts-{size}.pdf": write_booklet_pdf(parts, heading=heading, paper=paper),
        f"{name}-printer-test-{size}.pdf": write_calibration_pdf(paper, printer_scale=scale),
    }


def _refuse(paths: Sequence[Path], overwrite: bool) -> None:
    there = [path for path in paths if path.exists()]
    if there and not overwrite:
        more = f" (and {len(there) - 1} more)" if len(there) > 1 else ""
        raise OutputError(
            f"{there[0]} is there already{more}; nothing was written. "
            "Choose another folder, or ask to overwrite it."
        )


def _refuse_oversize(layout: Layout, parts: Sequence[Part], units: str) -> None:
    if not layout.unplaced:
        return
    by_id = {part.id: part for part in parts}
    room = " × ".join(
        length_words(value - 2 * layout.margin, units)
        for value in (layout.board_length, layout.board_width)
    )
    named = Counter(
        f"{by_id[id_].name}, {size_words(by_id[id_], units)}" for id_ in layout.unplaced
    )
    listed = "; ".join(words if n == 1 else f"{n} × {words}" for words, n in named.items())
    raise OutputError(
        f"These parts fit no board, which takes {room} inside its margin: {listed}. "
        "Shorten them, split the panel with a joint, or name a larger board under [board]."
    )


def _clear_old_boards(folder: Path, name: str, boards: int) -> None:
    """Take away drawings of boards that an older, looser layout had: they would mislead."""
    for path in folder.glob(f"{name}-board-*.svg"):
        number = path.stem.removeprefix(f"{name}-board-")
        if number.isdigit() and int(number) > boards:
            path.unlink()
