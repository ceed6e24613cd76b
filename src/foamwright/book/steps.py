"""The steps of one plane: the job table filled with its parts, times, masses and checks."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from foamwright.book import cautions
from foamwright.book.jobs import CUTTING, JOBS, MINUTE, TAIL, WING, Job
from foamwright.book.make_sure import checks_of
from foamwright.book.model import Step
from foamwright.book.order import ordered
from foamwright.book.variants import how_for, title_for
from foamwright.core.bands import Band
from foamwright.parts.model import Part, Source

if TYPE_CHECKING:
    from foamwright.plane import Plane

KNIFE = 0.011  # m/s along a line with all passes: about 40 min for 25 m; common practice
SAW = 4.0  # min for each piece of ply or stick; common practice
READY = 12.0  # min to weigh the boards and set up; common practice
CUT_TITLES = {
    "cut-wing": "Cut the wing parts",
    "cut-body": "Cut the fuselage parts",
    "cut-tail": "Cut the tail parts",
    "cut-hard": "Cut ply, sticks and wire",
}


def build_steps(plane: Plane) -> tuple[Step, ...]:
    """Every step from the bare boards to the propeller, in order.

    Args:
        plane: The plane. [-]

    Returns:
        Steps, each after what it needs. [-]

    Source:
        Common practice; docs/use/book.md.

    Example:
        >>> build_steps(plane)[-1].id
        'propeller'
    """
    parts = plane.parts.parts
    cut = _cutting(parts)
    joined = _joining(plane)
    steps = _bridged([*cut, *joined])
    steps = _with_context(ordered(steps))
    return tuple(_told(plane, step, steps) for step in steps)


def _kind_of_cut(part: Part) -> str:
    if part.source in (Source.PLY, Source.LENGTH):
        return "cut-hard"
    if re.match(WING, part.id):
        return "cut-wing"
    return "cut-tail" if re.match(TAIL, part.id) else "cut-body"


def _cutting(parts: Sequence[Part]) -> list[Step]:
    steps: list[Step] = []
    for name in CUTTING:
        mine = [p for p in parts if p.source is not Source.TAPE and _kind_of_cut(p) == name]
        if mine:
            hard = name == "cut-hard"
            time = len(mine) * SAW * MINUTE if hard else _knife_time(mine)
            how = (
                ("Saw or snip to the drawn lengths; smooth the ends.",)
                if hard
                else (
                    "Weigh one whole sheet first and write it down.",
                    "Put the patterns on, all through-cuts of one sheet first, three passes each: "
                    "paper, foam, paper. Then the scores, folds and bevels.",
                    "Write its name on each part, on the face that will be hidden.",
                )
            )
            steps.append(
                Step(
                    name,
                    CUT_TITLES[name],
                    hands=time + (0 if hard else READY * MINUTE),
                    parts=tuple(part.id for part in mine),
                    how=how,
                    cautions=(cautions.BLADE,),
                    flat=True,
                )
            )
    return steps


def _knife_time(parts: Sequence[Part]) -> float:
    length = sum(float(part.outline.length) for part in parts)
    lines = sum(
        sum(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5 for a, b in
            zip(line.points, line.points[1:], strict=False))
        for part in parts
        for line in part.lines
        if line.kind != "mark"
    )  # fmt: skip
    return (length + lines) / KNIFE


def _joining(plane: Plane) -> list[Step]:
    """Jobs that have something to do, parts given to the first that takes them."""
    left = list(plane.parts.parts)
    left_items = [item for item in plane.parts.items if item.id != "glue"]
    glue = plane.design.glue.stock
    sold = plane.stock.glues.get(glue)
    setting = 0.0 if sold is None else sold.set_time.high
    taken: dict[str, tuple[list[Part], list[str]]] = {}
    radio: list[str] = []
    # The catch-all goes last, so that later rows get their own parts first.
    for job in sorted(JOBS, key=lambda job: job.match == ".*"):
        mine = [part for part in left if _takes(job, part)]
        left = [part for part in left if part not in mine]
        things = [i.id for i in left_items if job.items and re.match(job.items, i.id)]
        left_items = [item for item in left_items if item.id not in things]
        if job.id == "radio":
            radio = things
        taken[job.id] = (mine, things)
    radio += [item.id for item in left_items]
    steps: list[Step] = []
    for job in JOBS:
        mine, things = taken[job.id]
        if mine or things or job.always:
            count = len(mine) + len(things)
            steps.append(
                Step(
                    job.id,
                    title_for(plane.design, job),
                    needs=job.needs,
                    hands=(job.base + job.each * count) * MINUTE,
                    wait=setting if job.glued else 0.0,
                    parts=tuple(part.id for part in mine),
                    items=tuple(things),
                    glue=glue if job.glued else "",
                    how=how_for(plane.design, job),
                )
            )
    return steps


def _takes(job: Job, part: Part) -> bool:
    if job.id == "spars" and part.id.startswith("reinforcement"):
        return "spar" in part.kind and part.source is not Source.TAPE
    return bool(job.match) and re.match(job.match, part.id) is not None


def _bridged(steps: Sequence[Step]) -> list[Step]:
    """Needs that point at a job without work point at what that job needed."""
    there = {step.id for step in steps}
    table = {job.id: job.needs for job in JOBS}

    def real(need: str) -> list[str]:
        if need in there:
            return [need]
        return [deeper for other in table.get(need, ()) for deeper in real(other)]

    return [
        replace(step, needs=tuple(dict.fromkeys(n for need in step.needs for n in real(need))))
        for step in steps
    ]


ONTO = {
    "stiffen": ("panels",),
    "breaks": ("panels",),
    "centre": ("panels",),
    "tips": ("panels",),
    "ailerons": ("panels",),
    "thicken": ("body",),
    "body-tape": ("body",),
    "hatch": ("body",),
    "firewall": ("body", "thicken"),
    "seat": ("body", "thicken"),
    "tail": ("body",),
    "horns": ("stab", "fin", "ailerons"),
    "rest": ("body",),
    "servos": ("body", "panels", "stab", "fin"),
    "power": ("body", "firewall"),
    "radio": ("body",),
    "balance": ("body", "panels", "stab", "fin"),
    "propeller": ("body", "firewall"),
}
SHOWN = {
    "panels": ("spars",),
    "tail": ("stab", "fin"),
    "set-up": ("ailerons", "stab", "fin"),
}
# Pieces that are worth weighing: all parts of these steps together.
PIECES = {
    "panels": ("spars", "panels"),
    "centre": ("spars", "panels", "stiffen", "breaks", "centre"),
    "thicken": ("body", "thicken"),
    "stab": ("stab",),
    "fin": ("fin",),
}


def _with_context(steps: Sequence[Step]) -> list[Step]:
    by_id = {step.id: step for step in steps}

    def of(names: Sequence[str]) -> tuple[str, ...]:
        return tuple(part for name in names if name in by_id for part in by_id[name].parts)

    return [
        replace(step, onto=of(ONTO.get(step.id, ())), shown=of(SHOWN.get(step.id, ())))
        for step in steps
    ]


def _told(plane: Plane, step: Step, steps: Sequence[Step]) -> Step:
    """Masses, checks, boxes and cautions."""
    checks, boxes = checks_of(plane, step)
    mass = _mass(plane, step, steps)
    warned = [*step.cautions]
    if step.glue:
        warned.append(cautions.HOT_GLUE if "hot" in step.glue else cautions.OTHER_GLUE)
    if "spray" in step.glue:
        warned.append(cautions.SPRAY)
    if step.id in ("power", "set-up", "propeller"):
        warned.append(cautions.PROPELLER)
    if step.id in ("power", "balance", "set-up"):
        warned.append(cautions.PACK)
    if step.id in ("panels", "ailerons", "stab"):
        warned.append(cautions.BLADE)
    return replace(step, checks=checks, boxes=boxes, cautions=tuple(warned), mass=mass)


def _mass(plane: Plane, step: Step, steps: Sequence[Step]) -> Band | None:
    """Of the piece when done, with the glue that goes with its parts by mass."""
    if step.id != "cut-hard" and step.flat:
        names = set(step.parts)
    elif step.id in PIECES:
        names = {p for other in steps if other.id in PIECES[step.id] for p in other.parts}
    else:
        return None
    mine = [part for part in plane.parts.parts if part.id in names]
    glue = next((item.mass.typical for item in plane.parts.items if item.id == "glue"), 0.0)
    total = sum(part.mass for part in plane.parts.parts)
    share = 1.0 + (glue / total if not step.flat and total > 0 else 0.0)
    low, typical, high = (
        share * sum(float(part.outline.area) * getattr(part.areal_mass, end) for part in mine)
        for end in ("low", "typical", "high")
    )
    return Band(low, typical, high, "computed")
