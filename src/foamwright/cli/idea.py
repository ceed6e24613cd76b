"""`foamwright idea`: from what is on the bench to complete designs."""

from __future__ import annotations

import signal
import sys
import threading
from collections.abc import Generator
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE
from foamwright.core.errors import DesignError, OutputError
from foamwright.core.units import format_value

if TYPE_CHECKING:
    from foamwright.idea.outcome import Outcome, Plan
    from foamwright.idea.propose import Proposal
    from foamwright.idea.reading import Wished
    from foamwright.idea.search import Progress

NOTHING = 1  # no plane passes
EVERY = 5.0  # s between two lines of progress where no line can be written over
# Figure -> (words, dimension, figures after the point where it is a plain number).
ROWS: tuple[tuple[str, str, str], ...] = (
    ("span", "span", "length"),
    ("chord", "mean chord", "length"),
    ("area", "wing area", "area"),
    ("length", "fuselage", "length"),
    ("mass", "ready to fly", "mass"),
    ("boards", "boards", "count"),
    ("stall_speed", "stall speed", "speed"),
    ("level_speed", "cruise", "speed"),
    ("top_speed", "top speed", "speed"),
    ("climb_rate", "climb", "speed"),
    ("endurance", "flying time", "minutes"),
    ("static_margin", "static margin", "share"),
    ("share", "builds that pass", "share"),
    ("launch", "launches that fly away", "share"),
)
QUESTIONS = (
    ("name", "Name of the plane to be", "Proposal"),
    ("kind", "What kind: trainer, slow flyer, small flyer, glider or sport", "trainer"),
    ("motors", "Motors at hand, stock names, commas between", "outrunner 22 mm 1000 Kv"),
    ("packs", "Packs at hand, such as 3 x 1300 mAh, commas between", "3 x 1300 mAh"),
    ("propellers", "Propellers, such as slow flight 9x4.7 (Enter: all on sale)", ""),
    ("servos", "How many servos", "4"),
    ("boards", "How many boards", "4"),
    ("board_mass", "One whole sheet weighs, such as 120 g (Enter: not weighed)", ""),
    ("span_most", "Longest span that fits the car, such as 1.2 m or 46 in (Enter: any)", ""),
    ("mass_most", "Ready to fly at most, such as 250 g (Enter: any)", ""),
    ("wind", "Usual wind, such as 2.5 m/s or 6 mph", "2.5 m/s"),
    ("level", "Pilot: beginner, returning or experienced", "beginner"),
)


@click.command(short_help="From what is on the bench to complete designs.")
@click.argument("wishes", type=FILE, required=False)
@click.option("--seconds", type=float, default=60.0, show_default=True, help="Time to search.")
@click.option("--generations", type=int, help="Generations to search instead of by time.")
@click.option("--seed", type=int, default=1, show_default=True, help="Same seed, same answer.")
@click.option("--jobs", type=int, help="Cores to use.  [default: all]")
@click.option("--cluster", metavar="ADDRESS", help="Dask scheduler, such as tcp://host:8786.")
@click.option("--out", type=FILE, help="Folder for the designs.  [default: NAME-ideas]")
@click.option("--go-on", is_flag=True, help="Take up the search that was kept in the folder.")
@click.option("--proposals", "most", type=click.IntRange(1, 7), default=5, show_default=True)
@click.option("--no-pictures", is_flag=True, help="Draw no three-views.")
@click.option("--overwrite", is_flag=True, help="Replace designs that are there already.")
def idea(  # noqa: PLR0913 - a command has as many arguments as options
    wishes: Path | None,
    seconds: float,
    generations: int | None,
    seed: int,
    jobs: int | None,
    cluster: str | None,
    out: Path | None,
    go_on: bool,
    most: int,
    no_pictures: bool,
    overwrite: bool,
) -> int:
    """Search all designs that a bench allows for a few different ones that pass every check.

    WISHES is a small file of what is at hand and what it should become; without it a few questions
    are asked on a terminal and the file is written. Ctrl-C stops the search and draws up what was
    found so far; --go-on takes it up again.
    """
    from foamwright.idea.outcome import Plan
    from foamwright.idea.reading import read_wishes

    wished = read_wishes(_asked() if wishes is None else wishes)
    folder = out or Path(f"{wished.path.stem}-ideas")
    _refuse(seconds, generations, jobs)
    state = folder / "search.json"
    if go_on and not state.exists():
        message = f"{state} is not there; without --go-on the search begins anew."
        raise OutputError(message)
    _refuse_old(folder, overwrite=overwrite or go_on)
    plan = Plan(seconds, generations, seed, jobs, cluster, state, go_on, most)
    outcome = _found(wished, plan, folder)
    _report(wished, outcome)
    if not outcome.proposals:
        return NOTHING
    for proposal in outcome.proposals:
        _written(proposal, folder, pictures=not no_pictures)
    click.echo(f"\nnext: foamwright check {folder / 'A.toml'}")
    return 0


def _refuse(seconds: float, generations: int | None, jobs: int | None) -> None:
    for flag, value, least in (
        ("--seconds", seconds, 1.0),
        ("--generations", generations, 0),
        ("--jobs", jobs, 1),
    ):
        if value is not None and not value >= least:
            raise DesignError(flag, f"{value:g}", f"it must be {least:g} or more")


def _refuse_old(folder: Path, *, overwrite: bool) -> None:
    old = sorted(folder.glob("[A-G].toml")) if folder.is_dir() else []
    if old and not overwrite:
        message = f"{old[0]} is there already; add --overwrite or --go-on, or name another --out."
        raise OutputError(message)


def _asked() -> Path:
    """Ask on the terminal and write the file of wishes."""
    from foamwright.core.files import write_atomically
    from foamwright.idea.asking import wishes_text

    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise click.UsageError("Name a file of wishes; docs/use/idea.md shows one.")
    said = {
        key: str(click.prompt(question, default=usual, show_default=bool(usual), err=True)).strip()
        for key, question, usual in QUESTIONS
    }
    file = Path(f"{'-'.join(said['name'].lower().split())}-wishes.toml")
    write_atomically(file, wishes_text(said), overwrite=False)
    click.echo(f"wrote {file}")
    return file


def _found(wished: Wished, plan: Plan, folder: Path) -> Outcome:
    from foamwright.core.files import make_folder
    from foamwright.idea.outcome import find_ideas
    from foamwright.idea.problem import Case

    make_folder(folder)
    case = Case(wished.wishes, wished.stock_file)
    shown = _Shown(plan.seconds, wished.wishes.units)
    with _stopped_softly() as stop:

        def progress(now: Progress) -> bool:
            shown.tell(now)
            return not stop.is_set()

        return find_ideas(case, plan, progress=progress, say=shown.say)


@contextmanager
def _stopped_softly() -> Generator[threading.Event]:
    """The first Ctrl-C ends the search after this generation, the second ends the program."""
    stop = threading.Event()
    before = signal.getsignal(signal.SIGINT)

    def on_signal(number: int, frame: object) -> None:
        del number, frame
        stop.set()
        signal.signal(signal.SIGINT, before)
        click.echo("\nstopping after this generation; Ctrl-C again ends at once", err=True)

    main = threading.current_thread() is threading.main_thread()
    if main:
        signal.signal(signal.SIGINT, on_signal)
    try:
        yield stop
    finally:
        if main:
            signal.signal(signal.SIGINT, before)


class _Shown:
    """Progress on stderr: one line written over on a terminal, else one now and then."""

    def __init__(self, seconds: float, units: str) -> None:
        self._seconds = seconds
        self._units = units
        self._last = -EVERY
        self._over = sys.stderr.isatty()

    def tell(self, now: Progress) -> None:
        """One generation is done."""
        if not self._over and now.elapsed - self._last < EVERY:
            return
        self._last = now.elapsed
        best = now.best[0]
        words = "nothing passes yet"
        if best is not None:
            figures = best.figures
            slow = format_value(figures["stall_speed"], "speed", self._units)
            words = (
                f"best so far {slow} stall, {figures['boards']:.0f} "
                f"boards, {figures['endurance'] / 60:.0f} min, {100 * (now.share or 0):.0f} %"
            )
        elif now.met:
            words = f"{now.met} pass, none yet at the wished share of builds"
        line = f"{now.elapsed:4.0f} s, {now.evaluations} planes, {now.rate:.0f} a second: {words}"
        end = "\x1b[K\r" if self._over else "\n"
        click.echo(line + end, nl=False, err=True)

    def say(self, words: str) -> None:
        """Something in words."""
        click.echo(words + ("\x1b[K\r" if self._over else "\n"), nl=False, err=True)


def _report(wished: Wished, outcome: Outcome) -> None:
    from foamwright.cli.table import paragraph
    from foamwright.idea.limits import TITLES

    rate = outcome.evaluations / max(outcome.elapsed, 1e-9)
    click.echo(
        f"\n{outcome.evaluations} planes computed in {outcome.elapsed:.0f} s, {rate:.1f} a second, "
        f"{outcome.state.met} of them pass every check."
    )
    if outcome.proposals:
        _compare(wished, outcome.proposals)
        return
    if outcome.best_share > 0.0:
        wish = wished.wishes.wish.share_least
        held = ", ".join(
            f"{TITLES[check]} ({100 * share:.0f} %)" for check, share in outcome.holding_back
        )
        click.echo(
            paragraph(
                f"Every check passes in at most {100 * outcome.best_share:.0f} % of builds; "
                f"{100 * wish:.0f} % are wished (wish.share_least). What holds it back: {held}. "
                f"Ask for {100 * int(20 * outcome.best_share) / 20:.0f} %, search on, or change "
                "that; parts weighed and measured scatter less than parts from a list."
            )
        )
    collision = outcome.collision
    if collision is not None:
        click.echo(paragraph(f"Nothing passes. {collision.words}"))
        for relaxation in collision.relaxations[:4]:
            share = f" Then about {100 * relaxation.share:.0f} % of builds pass"
            less = relaxation.share < wished.wishes.wish.share_least
            share += "; give way somewhat more for those wished." if less else "."
            click.echo(paragraph(relaxation.words + share, first="  - ", indent="    "))


def _compare(wished: Wished, proposals: tuple[Proposal, ...]) -> None:
    from foamwright.cli.table import paragraph, table
    from foamwright.idea.propose import compared

    units = wished.wishes.units
    figures = [
        compared(each) | ({} if each.launch_share is None else {"launch": each.launch_share})
        for each in proposals
    ]
    rows = [
        [words, *(_shown(each.get(key), dimension, units) for each in figures)]
        for key, words, dimension in ROWS
    ]
    rows.append(["rolls by", *(str(each.values["controls"]) for each in proposals)])
    head = ["", *(each.letter for each in proposals)]
    click.echo("\n" + table(rows, head=head, right="l" + "r" * len(proposals)) + "\n")
    for each in proposals:
        gear = each.values["gear"]
        click.echo(f"{each.letter}, {each.title}: {getattr(gear, 'words', '')}")
        click.echo(paragraph(f"good: {each.good}; bad: {each.bad}.", first="  ", indent="  "))
        for limit in each.limits:
            click.echo(paragraph(limit.words, first="  - ", indent="    "))


def _shown(value: float | None, dimension: str, units: str) -> str:
    if value is None:
        return "not known"
    plain = {
        "count": f"{value:.0f}",
        "minutes": f"{value / 60:.1f} min",
        "share": f"{100 * value:.0f} %",
        "area": f"{value / 0.0254**2:.0f} in²" if units == "inch" else f"{100 * value:.1f} dm²",
    }
    return plain.get(dimension) or format_value(value, dimension, units)


def _written(proposal: Proposal, folder: Path, *, pictures: bool) -> None:
    from foamwright.core.files import write_atomically
    from foamwright.idea.write import design_text

    file = folder / f"{proposal.letter}.toml"
    write_atomically(file, design_text(proposal), overwrite=True)
    drawing = ""
    if pictures:
        drawing = f", {proposal.plane.show(folder / f'{proposal.letter}.svg')}"
    click.echo(f"wrote {file}{drawing}")
