"""Learn: what weighings and flights tell about the plane, and the next version from it."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from foamwright.core.errors import FoamwrightError, OutputError
from foamwright.logbook.learn import learn
from foamwright.logbook.store import read_log
from foamwright.logbook.version import next_file, propose_version, write_version
from foamwright.readings import take_readings_along
from foamwright.web.errand import Errand
from foamwright.web.folder import name_in
from foamwright.web.place import Place
from foamwright.web.tags import Tag, button, table

if TYPE_CHECKING:
    from pathlib import Path

    from foamwright.logbook.lesson import Lesson
    from foamwright.logbook.version import NextVersion
    from foamwright.web.errand import Tell
    from foamwright.web.page import Page

NAMED = 0.02  # chance below which a cause is not shown
KINDS = {"learned": "what was learned", "build": "what the flights ask of the bench",
         "flown": "what the flights ask for",
         "check": "what the checks ask for"}  # fmt: skip


class LearnPlace:
    """What one page tells of its plane's logbook."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.errand = Errand(page, name="learning")
        self.version: NextVersion | None = None

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "What the flights tell")
            with Tag("div", kind="fw-row"):
                starts = [
                    button("Read the logbook", self._learn, "strong"),
                    button("Show the next version", partial(self._next, write=False)),
                    button("Write the next version", partial(self._next, write=True)),
                ]
                button("Write down a flight", partial(self.page.go, "logbook"))
            self.errand.build(starts)
            self.told = Tag("section", aria_label="What the logbook tells")
            self.next = Tag("section", aria_label="The next version")
        with self.told:
            Tag("p", self._kept())

    def _kept(self) -> str:
        try:
            entries = len(read_log(self.page.desk.file).entries)
        except FoamwrightError as error:
            return str(error)
        if not entries:
            return "The logbook holds nothing yet: weigh the plane, fly it, write down what it did."
        return f"The logbook holds {entries} {'entry' if entries == 1 else 'entries'}."

    # ------------------------------------------------------------ work

    async def _learn(self) -> None:
        plane, file = self.page.plane(), self.page.desk.file

        def job(tell: Tell) -> Lesson:
            tell("Reading the logbook", 0.0)
            return learn(plane, read_log(file), progress=tell)

        lesson = await self.errand.run(job)
        if lesson is not None and not self.errand.gone():
            self.told.clear()
            with self.told:
                _tell(lesson)

    async def _next(self, *, write: bool) -> None:
        desk = self.page.desk
        plane = self.page.plane()

        def job(tell: Tell) -> tuple[NextVersion, Path | None]:
            if desk.changed:
                raise OutputError("Save the design first: the next version grows out of the file.")
            tell("Reading the logbook", 0.0)
            log = read_log(desk.file)
            out = next_file(desk.file)[0]
            version = propose_version(plane, log, out=out, progress=tell)
            written = write_version(version) if write and not self.errand.gone() else None
            if written is not None:
                take_readings_along(desk.file, written)
            return version, written

        found = await self.errand.run(job)
        if found is None:
            return
        self.next.clear()
        with self.next:
            _version(*found)
            if found[1] is not None:
                self._link(found[1])

    def _link(self, file: Path) -> None:
        name = name_in(self.page.shop.folder, file)
        with Tag("p"):
            Tag("b", f"{file.name} is written; {self.page.desk.file.name} is as it was. ")
            Tag("a", "Open it on the drawing board", href=f"/shape?file={name}")


def _tell(lesson: Lesson) -> None:
    Tag("p", lesson.verdict, "ln-verdict")
    for doubt in lesson.contradictions:
        Tag("p", f"! {doubt.words}")
    shown = [cause for cause in lesson.causes if cause.chance >= NAMED]
    with Tag("div", kind="fw-two"):
        with Tag("section"):
            Tag("h2", "It comes from: how likely")
            rows = [
                (cause.title, f"{100 * cause.chance:.0f} %", f"{100 * cause.before:.0f} %")
                for cause in shown
            ]
            table(rows, head=("it may be", "now", "before any flight"))
            _listed("To settle it, most telling first", [
                f"{test.title}: the likeliest cause is then right in {100 * test.right:.0f} %"
                for test in lesson.tests
            ])  # fmt: skip
        with Tag("section"):
            _listed("What the logbook tells", [one.words for one in lesson.learned])
            _listed("What was seen comes from", [one.words for one in lesson.explanations])
            _listed("Hard to believe beside the rest", [one.words for one in lesson.misfits])
    Tag("h2", "Adjust now, one at a time, and fly between")
    if not lesson.adjustments:
        Tag("p", "Nothing is worth the work on this evidence.")
    for change in lesson.adjustments:
        Tag("p", f"{change.words[:1].upper()}{change.words[1:]}.")
        rows = [
            (effect.question, f"{100 * effect.before:.0f} %", f"{100 * effect.after:.0f} %")
            for effect in change.effects
            if effect.after > effect.before
        ]
        if rows:
            table(rows, head=("good answer to", "now", "then"))
    if lesson.cannot_say:
        Tag("p", "It cannot say: " + "; ".join(one.title for one in lesson.cannot_say) + ".")
    for note in lesson.notes:
        Tag("p", note)


def _listed(heading: str, lines: list[str]) -> None:
    if not lines:
        return
    Tag("h2", heading)
    with Tag("ul"):
        for line in lines:
            Tag("li", line)


def _version(version: NextVersion, written: Path | None) -> None:
    Tag("h2", f"Version {version.number}{'' if written else ', not written yet'}")
    if not version.changes and not version.remarks:
        Tag("p", "Nothing to change on what is known: fly it more, or change the design.")
    with Tag("ol"):
        for change in version.changes:
            with Tag("li"):
                Tag("b", f"{change.words}. ")
                Tag("span", f"From {KINDS.get(change.kind, change.kind)}: {change.reason}. "
                    f"Expected: {change.effect}.".replace("..", "."))  # fmt: skip
    for remark in version.remarks:
        Tag("p", f"To do: {remark}")


def build_learn(page: Page) -> None:
    """What the logbook tells, what to adjust, and the next version.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/logbook.md.

    Example:
        >>> build_learn(page)  # doctest: +SKIP
    """
    if page.look is not None:
        LearnPlace(page).build()


PLACES = (Place("learn", "learn", 82, build_learn, alone=True),)
