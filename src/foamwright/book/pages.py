"""The book as blocks, page after page; writers make PDF and HTML of the same blocks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from foamwright.book import cautions
from foamwright.book.model import Block, Figure, Grid, Heading, Picture, Step, TimePlan, Words
from foamwright.book.order import longest_chain
from foamwright.book.picture import exploded, flat_patterns
from foamwright.book.set_up import set_up_blocks
from foamwright.book.shopping import ShopEntry, shopping_list, total_price
from foamwright.core.bands import Band
from foamwright.core.errors import FoamwrightError
from foamwright.core.units import format_value
from foamwright.parts.listing import cut_list
from foamwright.parts.model import Item, LineKind, Part
from foamwright.sheets.notes import fact_rows
from foamwright.sheets.styles import STYLES

if TYPE_CHECKING:
    from foamwright.plane import Plane

TALL = 0.07  # m, of a step's picture: two steps to a page
TOOLS = (
    ("knife with ten new blades, metal ruler 60 cm (24 in)", "cutting, scoring, bevels"),
    ("flat table or door, weights (books, bottles)", "wing panels and laminations"),
    ("kitchen scale that shows single grams", "boards, pieces, the plane"),
    ("pencil, set square, tape measure, protractor", "marking, squareness"),
    ("fine saw, side cutters, sandpaper 120", "ply, sticks, wire"),
    ("hand drill or awl, 1 to 6 mm (1/16 to 1/4 in)", "horns, firewall, dowels"),
    ("pliers with a square edge", "bends in the pushrods"),
    ("screwdrivers of the motor's and servos' screws", "fitting out"),
    ("charger with balancer, fire-resistant box", "the pack"),
)


def cover_blocks(plane: Plane, three_view: bytes) -> list[Block]:
    """Cover with the three-view and the plane in figures.

    Args:
        plane: The plane. [-]
        three_view: The drawing as a file's bytes. [-]

    Returns:
        Blocks. [-]

    Source:
        Definition.

    Example:
        >>> cover_blocks(plane, b"")[0].words
        'Brindle Cob'
    """
    design = plane.design
    try:
        results = plane.aero
    except FoamwrightError:
        results = None
    rows = fact_rows(plane, results)
    half = (len(rows) + 1) // 2
    pairs = [
        (*rows[i], *(rows[half + i] if half + i < len(rows) else ("", ""))) for i in range(half)
    ]
    blocks: list[Block] = [Heading(design.name, 1)]
    words = " ".join(
        x for x in (design.notes, f"For {design.builder}." if design.builder else "") if x
    )
    if words:
        blocks.append(Words(words))
    blocks += [
        Figure(three_view, 0.138, ""),
        Grid(("", "", "", ""), tuple(pairs), (1.2, 2.4, 1.2, 2.4)),
        Words(cautions.ESTIMATE + " " + cautions.FLYING, "caution"),
    ]
    return blocks


def list_blocks(plane: Plane, shop: dict[str, ShopEntry]) -> list[Block]:
    """Shopping list, tools and cut list.

    Args:
        plane: The plane. [-]
        shop: The builder's packs and prices. [-]

    Returns:
        Blocks. [-]

    Source:
        Definition.

    Example:
        >>> list_blocks(plane, {})[0].words
        'Shopping list'
    """
    rows = shopping_list(plane, shop)
    low, typical, high, unknown = total_price(rows)
    sums = f"In all about {typical:.0f} ({low:.0f} to {high:.0f}), no currency"
    if unknown:
        sums += f"; {unknown} lines have no price"
    listed = tuple(
        (
            row.name,
            row.need,
            f"{row.packs} × {row.pack}" if row.packs else "from the drawer",
            "" if row.typical is None else f"{row.typical:.2f}" + (" *" if row.own else ""),
        )
        for row in rows
    )
    units = plane.design.units
    cuts = tuple(
        (
            line.name,
            str(line.count),
            line.stock,
            " × ".join(format_value(side, "length", units) for side in (line.length, line.width)),
            format_value(line.mass.typical, "mass", units),
        )
        for line in cut_list(plane.parts.parts)
    )
    return [
        Heading("Shopping list", 1),
        Grid(("what", "the plane takes", "to buy", "price"), listed, (2.2, 3.0, 2.0, 0.8)),
        Words(
            f"{sums}. Your own pack sizes, prices and drawer go into shop.toml; * is yours.",
            "small",
        ),
        Heading("Tools"),
        Grid(("tool", "for"), TOOLS, (3.2, 2.6)),
        Heading("Cut list", 1),
        Grid(("part", "count", "of", "each about", "all weigh"), cuts, (3.0, 0.6, 2.0, 2.0, 1.0)),
    ]


def time_blocks(steps: Sequence[Step], plan: TimePlan) -> list[Block]:
    """Time plan and the longest chain.

    Args:
        steps: In order. [-]
        plan: Their bookings. [-]

    Returns:
        Blocks. [-]

    Source:
        Definition.

    Example:
        >>> time_blocks(steps, plan)[0].words  # doctest: +SKIP
        'Time plan'
    """
    titles = {step.id: step.title for step in steps}
    numbers = {step.id: number for number, step in enumerate(steps, 1)}
    chain = longest_chain(steps)
    rows: list[tuple[str, ...]] = []
    session = -1
    for booking in plan.bookings:
        extra = "" if booking.session < plan.asked else " (more)"
        name = f"{plan.sessions[booking.session].name}{extra}" if booking.session != session else ""
        session = booking.session
        more = ", goes on" if booking.split else ""
        rows.append(
            (
                name,
                f"{_clock(booking.start)} to {_clock(booking.end)}",
                f"{numbers[booking.step]}. {titles[booking.step]}{more}",
                "●" if booking.step in chain.ids else "",
            )
        )
    work = sum(step.hands for step in steps)
    extra = len(plan.sessions) - plan.asked
    words = (
        f"Work {_hours(work)} for a first plane. The longest chain (●) takes "
        f"{_hours(chain.duration)} with "
        f"its glue: " + ", ".join(titles[name].lower() for name in chain.ids) + "."
    )
    if extra > 0:
        words += f" The free hours given do not suffice: {extra} more like the last were added."
    return [
        Heading("Time plan", 1),
        Words(words),
        Grid(("when", "from start", "step", "chain"), tuple(rows), (1.3, 1.6, 4.4, 0.6)),
    ]


def _clock(seconds: float) -> str:
    return f"{int(seconds // 3600)}:{int(seconds % 3600 // 60):02d}"


def _hours(seconds: float) -> str:
    return f"{seconds / 3600:.1f} h"


def step_blocks(plane: Plane, step: Step, *, number: int, titles: dict[str, str]) -> list[Block]:
    """One step.

    Args:
        plane: The plane. [-]
        step: The step. [-]
        number: Of it. [-]
        titles: Step id -> title. [-]

    Returns:
        Blocks. [-]

    Source:
        Definition.

    Example:
        >>> step_blocks(plane, step, number=1, titles={})[0].words  # doctest: +SKIP
        '1. Cut the wing parts'
    """
    by_id = {part.id: part for part in plane.parts.parts}
    parts = [by_id[name] for name in step.parts]
    blocks: list[Block] = [Heading(f"{number}. {step.title}", 2)]
    facts = [f"about {step.hands / 60:.0f} min"]
    if step.wait:
        facts.append(f"{step.glue}, sets in {format_value(step.wait, 'time')}")
    if step.needs:
        facts.append("after: " + ", ".join(titles[name].lower() for name in step.needs))
    blocks.append(Words("; ".join(facts) + ".", "small"))
    blocks += [Words(words, "caution") for words in step.cautions]
    items = [item for item in plane.parts.items if item.id in step.items]
    drawn = [*parts, *(by_id[name] for name in step.shown)]
    if drawn or items:
        onto, blades = [by_id[name] for name in step.onto], plane.design.propeller.blades
        blocks.append(_figure(step, drawn, onto, items, blades))
    blocks += [Words(words) for words in step.how]
    lines = _line_words(parts)
    if lines:
        blocks.append(Words(lines, "small"))
    blocks += [Words(words, "check") for words in step.checks]
    if step.mass is not None and step.mass.typical > 0:
        blocks.append(Words(_mass_words(step.mass, plane.design.units, step.flat), "check"))
    blocks += [Words(f"{name}:", "box") for name in step.boxes]
    return blocks


def _mass_words(mass: Band, units: str, cut: bool) -> str:
    said = [format_value(value, "mass", units) for value in (mass.typical, mass.low, mass.high)]
    what = "The cut pieces weigh" if cut else "The piece weighs, with its glue,"
    band = "" if said[1] == said[2] else f" ({said[1]} to {said[2]})"
    return f"{what} about {said[0]}{band}."


def _line_words(parts: Sequence[Part]) -> str:
    counts = {
        kind: sum(line.kind == kind for part in parts for line in part.lines) for kind in LineKind
    }
    said = [
        f"{count} {STYLES[kind.value].name.lower()} ({STYLES[kind.value].meaning})"
        for kind, count in counts.items()
        if count and kind not in (LineKind.MARK, LineKind.CUT)
    ]
    return "Lines: " + "; ".join(said) + "." if said else ""


def _one_side(parts: Sequence[Part]) -> tuple[list[Part], bool]:
    """The right side alone where the left is its mirror image."""
    right = [part for part in parts if part.side != "left"]
    pairs = {part.id.replace("-left", "-right") for part in parts if part.side == "left"}
    if pairs and pairs <= {part.id for part in parts}:
        return right, True
    return list(parts), False


def _figure(
    step: Step,
    drawn: Sequence[Part],
    onto: Sequence[Part],
    items: Sequence[Item],
    blades: int,
) -> Figure:
    shown, once = _one_side(drawn)
    if step.flat:
        unlike: dict[object, Part] = {}
        for part in shown:
            unlike.setdefault((part.kind, round(part.outline.area, 6)), part)
        shown = list(unlike.values())
        picture: Picture = flat_patterns(shown)
    else:
        behind = [part for part in onto if not once or part.side != "left"]
        picture = exploded(shown, behind, items=items, blades=blades)
    names = [part.name for part in shown] + [item.name for item in items]
    said = "; ".join(f"{number} {name}" for number, name in enumerate(names, 1))
    side = " The right side is drawn; the left is its mirror image." if once else ""
    left, bottom, right, top = picture.box
    slender = (top - bottom) / max(right - left, 1e-6)
    return Figure(picture, min(TALL, max(0.03, 0.17 * slender)), said + "." + side)


def book_blocks(
    plane: Plane,
    steps: Sequence[Step],
    plan: TimePlan,
    *,
    three_view: bytes,
    shop: dict[str, ShopEntry],
) -> list[Block]:
    """The whole book.

    Args:
        plane: The plane. [-]
        steps: In order. [-]
        plan: Their bookings. [-]
        three_view: The drawing as a file's bytes. [-]
        shop: The builder's packs and prices. [-]

    Returns:
        Blocks. [-]

    Source:
        Definition.

    Example:
        >>> book_blocks(plane, steps, plan, three_view=b"", shop={})  # doctest: +SKIP
    """
    titles = {step.id: step.title for step in steps}
    blocks = [
        *cover_blocks(plane, three_view),
        *list_blocks(plane, shop),
        *time_blocks(steps, plan),
    ]
    blocks.append(Heading("Steps", 1))
    for number, step in enumerate(steps, 1):
        blocks += step_blocks(plane, step, number=number, titles=titles)
    blocks += set_up_blocks(plane)
    blocks += [
        Heading("Measured", 1),
        Words("For the logbook: 'foamwright log' asks for these.", "small"),
        *(Words(f"{name}:", "box") for step in steps for name in step.boxes),
    ]
    return blocks
