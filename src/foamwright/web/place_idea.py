"""Idea: from what is on the bench to a few complete designs, drawn side by side."""

from __future__ import annotations

import os
from functools import partial
from typing import TYPE_CHECKING
from urllib.parse import quote

from nicegui import ui

from foamwright.core.errors import FoamwrightError
from foamwright.core.files import write_atomically
from foamwright.core.units import format_value
from foamwright.idea.asking import wishes_text
from foamwright.idea.outcome import Plan, find_ideas
from foamwright.idea.problem import Case
from foamwright.idea.propose import compared
from foamwright.idea.reading import parse_wishes
from foamwright.idea.write import design_text
from foamwright.sheets.silhouettes import from_above
from foamwright.sheets.write import slug
from foamwright.web.errand import Errand
from foamwright.web.folder import name_in
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, choice, field

if TYPE_CHECKING:
    from foamwright.idea.outcome import Outcome
    from foamwright.idea.propose import Proposal
    from foamwright.idea.search import Progress
    from foamwright.web.errand import Tell
    from foamwright.web.page import Page

KINDS = ["trainer", "slow flyer", "small flyer", "glider", "sport"]
LEVELS = ["beginner", "returning", "experienced"]
LENGTHS = {"20 s, a first look": 20.0, "1 min": 60.0, "3 min": 180.0, "10 min": 600.0}
ASKED = (
    ("name", "name of the plane to be", "Proposal"),
    ("packs", "packs at hand, commas between", "3 x 1300 mAh"),
    ("propellers", "propellers at hand (empty: all on sale)", ""),
    ("servos", "servos", "4"),
    ("boards", "boards", "4"),
    ("board_mass", "one whole board weighs (empty: not weighed)", ""),
    ("span_most", "longest span (empty: any)", ""),
    ("mass_most", "ready to fly at most (empty: any)", ""),
    ("wind", "usual wind", "2.5 m/s"),
)
ROWS = (
    ("span", "span", "length"),
    ("mass", "ready to fly", "mass"),
    ("boards", "boards", "count"),
    ("stall_speed", "stall speed", "speed"),
    ("top_speed", "top speed", "speed"),
    ("climb_rate", "climb", "speed"),
    ("endurance", "flying time", "minutes"),
    ("static_margin", "static margin", "share"),
    ("share", "builds that pass every check", "share"),
)
PROCESSES = max(2, (os.cpu_count() or 2) - 1)  # beside this one, so that the page stays quick
LONGEST = 100  # letters of one answer


class IdeaPlace:
    """The wishes and proposals of one page."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.errand = Errand(page, name="search")
        self.said = {key: usual for key, _, usual in ASKED}
        self.motors = sorted(page.plane().stock.motors)
        self.said |= {"kind": KINDS[0], "level": page.plane().design.pilot.level}
        mine = page.plane().design.motor.stock
        self.said["motors"] = mine if mine in self.motors else self.motors[0]
        if page.plane().design.units == "inch":
            self.said["wind"] = "6 mph"
        self.seconds = 20.0

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "From the bench to a plane")
            Tag("p", "Say what is at hand and what it should become. Hundreds of designs are "
                "computed, and a few that differ and pass every check are drawn up.")  # fmt: skip
            with Tag("div", kind="fw-fields"):
                choice("kind", KINDS, KINDS[0], partial(self._keep, "kind"))
                choice("pilot", LEVELS, self.said["level"], partial(self._keep, "level"))
                choice("motor at hand", self.motors, self.said["motors"],
                       partial(self._keep, "motors"))  # fmt: skip
                for key, label, _ in ASKED:
                    field(label, self.said[key], partial(self._keep, key))
                choice("search for", list(LENGTHS), next(iter(LENGTHS)), self._length)
            with Tag("div", kind="fw-row"):
                start = button("Look for planes", self._search, "strong")
            self.errand.build([start])
            self.found = Tag("section", aria_label="Proposals")

    def _keep(self, key: str, event: object) -> None:
        self.said[key] = str(getattr(event, "args", ""))[:LONGEST]

    def _length(self, event: object) -> None:
        self.seconds = LENGTHS.get(str(getattr(event, "args", "")), self.seconds)

    # ------------------------------------------------------------ work

    async def _search(self) -> None:
        said, seconds = dict(self.said), self.seconds

        def job(tell: Tell) -> Outcome:
            wishes = parse_wishes(wishes_text(said))

            def progress(now: Progress) -> bool:
                words = f"{now.evaluations} planes computed, {now.met} pass every check"
                tell(words, min(now.elapsed / seconds, 0.95))
                return not self.errand.gone()

            def say(words: str) -> None:
                tell(words, 0.95)

            tell("Setting out", 0.0)
            plan = Plan(seconds=seconds, jobs=PROCESSES)
            return find_ideas(Case(wishes), plan, progress=progress, say=say)

        found = await self.errand.run(job)
        if found is not None and not self.page.gone:
            self.found.clear()
            with self.found:
                self._show(found, self.page.plane().design.units)

    def _show(self, outcome: Outcome, units: str) -> None:
        Tag("h2", "Proposals" if outcome.proposals else "Nothing passes yet")
        if outcome.collision is not None:
            Tag("p", outcome.collision.words)
            with Tag("ul"):
                for relaxation in outcome.collision.relaxations[:4]:
                    share = f"then {100 * relaxation.share:.0f} % of builds pass"
                    Tag("li", f"{relaxation.words} ({share})")
        elif not outcome.proposals:
            Tag("p", f"Every check passes in at most {100 * outcome.best_share:.0f} % of builds. "
                "Search longer, or ask for less.")  # fmt: skip
        if not outcome.proposals:
            return
        widest = max(each.plane.airframe.wing.span for each in outcome.proposals)
        longest = max(each.plane.airframe.body.length for each in outcome.proposals)
        with Tag("div", kind="id-sheets"):
            for each in outcome.proposals:
                self._sheet(each, units, (1.06 * widest, 1.2 * longest))
        Tag("p", "All are drawn to one scale, seen from above. Each is a first draft by the model: "
            "look at its findings before you cut.")  # fmt: skip

    def _sheet(self, proposal: Proposal, units: str, size: tuple[float, float]) -> None:
        figures = compared(proposal)
        with Tag("article"):
            Tag("h3", f"{proposal.letter}: {proposal.title}")
            ui.html(_drawing(proposal, size), sanitize=False)
            with Tag("dl"):
                for key, words, dimension in ROWS:
                    Tag("dt", words)
                    Tag("dd", _said(figures.get(key), dimension, units))
            Tag("p", f"Good: {proposal.good}. Bad: {proposal.bad}.")
            for limit in proposal.limits[:2]:
                Tag("p", limit.words)
            row = Tag("p")
            with row:
                button(f"Write {proposal.letter} as a design",
                       partial(self._write, proposal, row))  # fmt: skip

    def _write(self, proposal: Proposal, row: Tag) -> None:
        stem = slug(self.said["name"]) or "proposal"
        folder = self.page.shop.folder
        names = (f"{stem}-{proposal.letter.lower()}{n}.toml" for n in ("", *range(2, 100)))
        file = next(path for path in map(folder.joinpath, names) if not path.exists())
        try:
            write_atomically(file, design_text(proposal), overwrite=False)
        except FoamwrightError as error:
            self.errand.trouble.say(str(error))
            return
        row.clear()
        with row:
            Tag("b", f"{file.name} is written. ")
            Tag("a", "Open it on the drawing board",
                href=f"/shape?file={quote(name_in(folder, file))}")  # fmt: skip


def _drawing(proposal: Proposal, size: tuple[float, float]) -> str:
    """The plane from above, all proposals to one scale."""
    wide, high = size
    paths = "".join(
        "<path d='M" + "L".join(f"{x:.4f} {-y:.4f}" for x, y in shape.points) + "Z'/>"
        for shape in from_above(proposal.plane.airframe)
    )
    box = f"{-wide / 2:.3f} {-0.1 * high:.3f} {wide:.3f} {high:.3f}"
    label = f"{proposal.letter} from above"
    return f'<svg viewBox="{box}" role="img" aria-label="{label}">{paths}</svg>'


def _said(value: float | None, dimension: str, units: str) -> str:
    if value is None:
        return "cannot say"
    plain = {
        "count": f"{value:.0f}",
        "minutes": f"{value / 60:.0f} min",
        "share": f"{100 * value:.0f} %",
    }
    return plain.get(dimension) or format_value(value, dimension, units)


def build_idea(page: Page) -> None:
    """Wishes, a search with progress, and its proposals side by side.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/idea.md.

    Example:
        >>> build_idea(page)  # doctest: +SKIP
    """
    if page.look is not None:
        IdeaPlace(page).build()


PLACES = (Place("idea", "idea", 5, build_idea, alone=True),)
