"""Logbook: weighings, measurements, flights and repairs taken in, put right, and read again."""

from __future__ import annotations

import asyncio
from functools import partial
from typing import TYPE_CHECKING, Any

from foamwright.core.errors import FoamwrightError, OutputError
from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook.ask import flight_questions, open_questions
from foamwright.logbook.doubts import contradictions
from foamwright.logbook.keep import keep_entries
from foamwright.logbook.kinds import KEYS, MEASURED
from foamwright.logbook.model import Log
from foamwright.logbook.store import correct_entry, log_file, read_log
from foamwright.web.place import Place
from foamwright.web.tags import VALUE, Tag, button

if TYPE_CHECKING:
    from foamwright.logbook.ask import Question
    from foamwright.logbook.model import Entry
    from foamwright.web.page import Page

FORMS = {
    "weigh-in": "weighed and measured",
    "flight": "a flight",
    "repair": "a repair",
    "note": "a note",
}
TICKS = {item.key: item.answers for item in OBSERVATIONS}
MOST = 120  # letters of one answer; a note may be longer
NOTE = 400
BARE = ("mass", "value", "what", "note")  # keys whose words need no name before them


class LogPlace:
    """The logbook of one page."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.log = Log()
        self.form = page.at if page.at in FORMS else ""
        self.said: dict[str, str] = {}
        self.correcting: int | None = None

    def build(self) -> None:
        """Lay the place out."""
        with Tag("div", kind="fw-sheetwork"):
            Tag("h1", "Logbook")
            with Tag("p"):
                Tag("span", "What came out, against what was computed. It stands in ")
                Tag("b", log_file(self.page.desk.file).name)
                Tag("span", " beside the design, is only ever added to, and is the one that "
                    "the command line reads.")  # fmt: skip
            with Tag("div", kind="fw-row"):
                Tag("span", "Write down")
                self.switch = Tag("span", kind="fw-switch", role="group", aria_label="Write down")
            self.ask = Tag("div")
            self.faults = Tag("ul", kind="fw-faults", aria_live="polite")
            self.doubts = Tag("div")
            self.list = Tag("div")
        self.page.refresh_place = self.again
        self.again(fresh=True)

    def again(self, *, fresh: bool = False) -> None:
        """Read the logbook again; a form that is being filled in stays as it is."""
        try:
            found = read_log(self.page.desk.file)
        except FoamwrightError as error:
            self._fault(error)
            return
        if fresh or found != self.log:
            self.log = found
            self._forms()
            self._show()

    def _fault(self, error: FoamwrightError) -> None:
        self.faults.clear()
        folder = f"{self.page.desk.file.parent}/"
        with self.faults:
            for line in str(error).splitlines():
                Tag("li", line.replace(folder, ""))

    # ------------------------------------------------------------ taking in

    def _forms(self) -> None:
        plane = self.page.plane()
        asked = open_questions(plane, self.log)
        chosen = self.form or ("weigh-in" if asked else "flight")
        self.form = chosen
        self.said = {}
        self.faults.clear()
        self.switch.clear()
        with self.switch:
            for name, title in FORMS.items():
                button(title, partial(self._turn, name)).put(
                    "aria-pressed", "true" if name == chosen else "false"
                )
        self.ask.clear()
        with self.ask:
            if chosen == "weigh-in":
                self._questions(asked, "What has not been weighed or measured since the last "
                                "change; leave open what you do not know.")  # fmt: skip
                self._other()
            elif chosen == "flight":
                self._questions(flight_questions(self.log), "Tick what you saw; what was good "
                                "twice running is not asked again.")  # fmt: skip
            elif chosen == "repair":
                self._field("what", "what was mended")
                self._field("mass", "mass it added, such as 8 g")
                self._field("place", "its place from the nose, such as 300 mm")
            else:
                self._field("note", "anything worth remembering", wide=True)
            with Tag("div", kind="fw-row"):
                button("Write it down", self._keep, "strong")

    async def _turn(self, form: str) -> None:
        self.form = form
        self.page.stand(form)
        self._forms()

    def _questions(self, questions: tuple[Question, ...], words: str) -> None:
        Tag("p", words)
        with Tag("div", kind="fw-fields wide"):
            for number, question in enumerate(questions):
                self._ask(question, f"{number}")

    def _ask(self, question: Question, number: str) -> None:
        if question.key in TICKS:
            label = question.words.partition(":")[0]
            if ": rolls" in question.words or ": the" in question.words:
                label = question.words.rpartition(":")[0]
            with Tag("label"):
                Tag("span", label)
                made = Tag("select", aria_label=label)
                with made:
                    for answer in ("", *TICKS[question.key]):
                        Tag("option", answer or "not seen", value=answer)
            made.on("change", self._hear(number, question), js_handler=VALUE)
            return
        with Tag("label"):
            Tag("span", question.words)
            made = Tag("input", autocomplete="off", aria_label=question.words,
                       maxlength=NOTE if question.key == "note" else MOST)  # fmt: skip
        made.on("input", self._hear(number, question), js_handler=VALUE)

    def _hear(self, number: str, question: Question) -> Any:  # noqa: ANN401 - a handler
        def handler(event: Any) -> None:  # noqa: ANN401 - of the page library
            key = f"{number}|{question.kind}|{question.what}|{question.key}"
            self.said[key] = str(event.args)[:NOTE]

        return handler

    def _field(self, key: str, label: str, *, wide: bool = False) -> None:
        with Tag("label", kind="fw-field wide" if wide else "fw-field"):
            Tag("span", label)
            made = Tag("input", autocomplete="off", aria_label=label, maxlength=NOTE)

        def hear(event: Any) -> None:  # noqa: ANN401 - as above
            self.said[key] = str(event.args)[:NOTE]

        made.on("input", hear, js_handler=VALUE)

    def _other(self) -> None:
        """Something else that was weighed or measured."""
        with Tag("details"):
            Tag("summary", "something else")
            with Tag("div", kind="fw-fields wide"):
                with Tag("label"):
                    Tag("span", "measured")
                    made = Tag("select", aria_label="what was measured")
                    with made:
                        for name in ("", *MEASURED):
                            Tag("option", name or "choose", value=name)
                made.on("change", self._put("other what"), js_handler=VALUE)
                self._field("other value", "it reads, such as 221 mm or 2 deg")
                self._field("part", "weighed: which part")
                self._field("part mass", "it weighs, such as 212 g")

    def _put(self, key: str) -> Any:  # noqa: ANN401 - a handler
        def handler(event: Any) -> None:  # noqa: ANN401 - as above
            self.said[key] = str(event.args)[:MOST]

        return handler

    def _entries(self) -> list[tuple[str, dict[str, str]]]:
        """What stands in the form, as entries."""
        said = {key: words.strip() for key, words in self.said.items() if words.strip()}
        if self.form in ("repair", "note"):
            return [(self.form, said)] if said else []
        found: list[tuple[str, dict[str, str]]] = []
        flight: dict[str, str] = {}
        for key, words in said.items():
            if "|" not in key:
                continue
            _, kind, what, name = key.split("|")
            if kind == "flight":
                flight[name] = words
            else:
                found.append((kind, {"what": what, name: words}))
        for kind, what, name, words in (
            ("measured", "other what", "value", "other value"),
            ("weighed", "part", "mass", "part mass"),
        ):
            if what in said or words in said:
                given = {"what": said.get(what, ""), name: said.get(words, "")}
                found.append((kind, {key: value for key, value in given.items() if value}))
        return [*found, *([("flight", flight)] if flight else [])]

    async def _keep(self) -> None:
        page = self.page
        try:
            entries = self._entries()
            if not entries:
                raise OutputError("Nothing is filled in yet.")
            if page.desk.new:
                raise OutputError("Save the design first: the logbook stands beside its file.")
            plane, file = page.plane(), page.desk.file
            await asyncio.to_thread(lambda: keep_entries(plane, file, said=entries))
        except FoamwrightError as error:
            with page.client:
                self._fault(error)
            return
        with page.client:
            self.form = ""
            self.again(fresh=True)
        page.desk.tell()

    # ------------------------------------------------------------ reading

    def _show(self) -> None:
        self.doubts.clear()
        with self.doubts:
            for words in self.log.notes:
                Tag("p", words, "fw-caution")
            for doubt in contradictions(self.log, self.page.plane()):
                Tag("p", doubt.words, "fw-caution")
        self.list.clear()
        with self.list:
            if not self.log.entries:
                Tag("p", "Nothing is written down yet.")
                return
            with Tag("table", kind="fw-log"):
                with Tag("thead"), Tag("tr"):
                    for title in ("no", "day", "what", "said", "put right"):
                        Tag("th", title, scope="col")
                with Tag("tbody"):
                    for entry in reversed(self.log.entries):
                        self._row(entry)

    def _row(self, entry: Entry) -> None:
        with Tag("tr"):
            Tag("td", str(entry.number), "n")
            Tag("td", entry.when)
            Tag("td", entry.kind)
            with Tag("td"):
                self._said(entry)
            with Tag("td"):
                if self.correcting == entry.number:
                    self._correction(entry)
                else:
                    button("Correct", partial(self._correct, entry.number),
                           label=f"Correct entry {entry.number}")  # fmt: skip

    def _said(self, entry: Entry) -> None:
        with Tag("span"):
            for key, words in entry.said.items():
                name = "" if key in BARE else f"{key.replace('_', ' ')} "
                Tag("span", f"{name}{words}", "fw-said")
        for made in entry.corrections:
            why = f", {made.why}" if made.why else ""
            old = made.old or "not said"
            Tag("small", f"{made.key} was {old}, put right on {made.when}{why}")

    def _correct(self, number: int) -> None:
        self.correcting = number
        self.said = {}
        self._show()

    def _correction(self, entry: Entry) -> None:
        keys = [*entry.said, *(key for key in KEYS[entry.kind] if key not in entry.said)]
        first = next((key for key in keys if key not in ("what",)), keys[0])
        self.said = {"key": first}
        with Tag("div", kind="fw-correct"):
            made = Tag("select", aria_label="which value")
            with made:
                for key in keys:
                    Tag("option", key.replace("_", " "), value=key, selected=key == first or None)
            made.on("change", self._put("key"), js_handler=VALUE)
            self._field("new", "as it should be")
            self._field("why", "why")
            button("Put right", partial(self._put_right, entry.number), "strong")
            button("Leave it", self._leave)

    def _leave(self) -> None:
        self.correcting = None
        self._show()

    async def _put_right(self, number: int) -> None:
        said, page = self.said, self.page
        try:
            await asyncio.to_thread(
                lambda: correct_entry(
                    page.desk.file,
                    number,
                    key=said.get("key", ""),
                    value=said.get("new", "").strip(),
                    why=said.get("why", "").strip(),
                )
            )
        except FoamwrightError as error:
            with page.client:
                self._fault(error)
            return
        with page.client:
            self.correcting = None
            self.again(fresh=True)
        page.desk.tell()


def build_logbook(page: Page) -> None:
    """What was weighed, measured, flown and mended.

    Args:
        page: The page to build on. [-]

    Source:
        docs/use/logbook.md.

    Example:
        >>> build_logbook(page)  # doctest: +SKIP
    """
    if page.look is not None:
        LogPlace(page).build()


PLACES = (Place("logbook", "logbook", 80, build_logbook, alone=True),)
