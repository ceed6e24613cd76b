"""Check that learning is honest: made-up builders, their logbooks, and what learning says of them.

Draws hidden faults, lets a made-up pilot fill a logbook, learns from that alone, and counts: how
often the 80 % bands hold the truth (simulation-based calibration), how often the fault named first
is the one that was put in, how often the next version no longer shows what the pilot saw.

    python tools/calibrate_learning.py [builders] [faults of each kind]

writes docs/pictures/learning-calibration.svg and docs/physics/learning-calibration.md.
"""

import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np

import foamwright
from foamwright.logbook.basis import Basis, basis_of
from foamwright.logbook.causes import CAUSES, PLACE
from foamwright.logbook.evidence import evidence_of
from foamwright.logbook.hidden import quantities_of, spreads_of
from foamwright.logbook.infer import infer
from foamwright.logbook.makers import makers_of
from foamwright.logbook.readout import READOUTS, values_of
from foamwright.logbook.rehearse import FAULT, draw_builder, draw_fault, notes_of
from foamwright.logbook.rehearse_flights import KINDS, flown_cases, flown_left
from foamwright.logbook.rehearse_next import symptoms_left
from foamwright.logbook.version import propose_version
from foamwright.plane import Plane

ROOT = Path(__file__).parents[1]
PLANES = ("brindle-cob", "tansy-drift", "quillon-a", "farrowlight", "sixpence")
BUILDERS, FAULTS = 500, 30
PAGE = ROOT / "docs" / "physics" / "learning-calibration.md"
PICTURE = ROOT / "docs" / "pictures" / "learning-calibration.svg"
FLOWN, FLOWN_ON = 10, ("brindle-cob", "tansy-drift", "farrowlight", "sixpence")
# Builders of each kind whose next version is flown whole as well, on which planes.
AGAIN, AGAIN_ON = 1, ("brindle-cob", "farrowlight")
OTHER = (0.7, 1.0), (1.3, 1.7)  # sizes that nothing was chosen by
FAULTLESS = 8  # builders of each plane with nothing off
type Flight = tuple[str, str, bool, str, float, int, int]
type Row = tuple[str, str, int, int, bool]
SHARES = np.arange(0.1, 0.95, 0.1)


@dataclass(frozen=True)
class Opened:
    """A plane with what learning needs of it.

    Attributes:
        plane: The plane.
        basis: Its figures.
        spreads: Of what is not known. [as each]
    """

    plane: Plane
    basis: Basis
    spreads: np.ndarray


def opened(name: str) -> Opened:
    """Open an example.

    Args:
        name: Of its file. [-]

    Returns:
        The plane and its figures.

    Source:
        Definition.

    Example:
        >>> opened("brindle-cob").spreads.shape  # doctest: +SKIP
        (18,)
    """
    plane = foamwright.load(ROOT / "examples" / f"{name}.toml")
    return Opened(plane, basis_of(plane), spreads_of(quantities_of(plane)))


def ranks_of(job: tuple[str, int, int]) -> np.ndarray:
    """Share of the posterior below the truth, builder by builder, quantity by quantity.

    Args:
        job: Plane, number of builders, seed. [-]

    Returns:
        One row a builder, one column a readout. [-]

    Source:
        [TALTS].

    Example:
        >>> ranks_of(("brindle-cob", 1, 1)).shape  # doctest: +SKIP
        (1, 15)
    """
    name, builders, seed = job
    here, generator = opened(name), np.random.default_rng(seed)
    rows = []
    for _ in range(builders):
        hidden, _cause = draw_builder(generator, here.basis, here.spreads)
        log = notes_of(here.plane, here.basis, hidden, generator)
        evidence = evidence_of(here.plane, log, here.basis)
        left = infer(here.basis, evidence.seen, spreads=here.spreads)
        rows.append(
            [
                float(left.weights @ (values_of(one, left.samples) < values_of(one, hidden)[0]))
                for one in READOUTS
            ]
        )
    return np.array(rows)


def faults_of(job: tuple[str, str, int, int], sizes: tuple[float, float] = FAULT) -> list[Row]:
    """Single faults: put in, named first, symptoms seen, symptoms left, whole logbook or not.

    Args:
        job: Plane, cause, number of cases, seed. [-]
        sizes: Of the fault, in standard deviations of causes.py. [-]

    Returns:
        One row a case.

    Source:
        Definition.

    Example:
        >>> faults_of(("brindle-cob", "drag", 1, 1))  # doctest: +SKIP
        [('drag', 'drag', 1, 0, True)]
    """
    name, cause, cases, seed = job
    here, generator = opened(name), np.random.default_rng(seed)
    rows = []
    for case in range(cases):
        hidden = draw_fault(generator, here.basis, here.spreads, cause, sizes=sizes)
        log = notes_of(here.plane, here.basis, hidden, generator, everything=case % 2 == 0)
        version = propose_version(here.plane, log, mend=False)
        named = next(c.name for c in version.lesson.causes if c.name != "none")
        seen, left = symptoms_left(here.basis, version, hidden, generator, log=log)
        rows.append((cause, named, int(bool(seen)), int(bool(left)), case % 2 == 0))
    return rows


def flights_of(job: tuple[str, int, int]) -> list[Flight]:
    """Single faults of builders' size seen through whole flights in six degrees of freedom.

    Args:
        job: Plane, builders of each kind, seed. [-]

    Returns:
        Plane, put in, whether anything abnormal was noted, named first, its chance, symptoms ticked
        and left in the next version (0 where that was not flown); one row a case.

    Source:
        rehearse_flights.py.

    Example:
        >>> flights_of(("brindle-cob", 1, 500))[0][1]  # doctest: +SKIP
        'twist'
    """
    name, each, seed = job
    here = opened(name)
    rows: list[Flight] = []
    generator = np.random.default_rng(seed)
    for place, case in enumerate(flown_cases(here.plane, each, generator)):
        evidence = evidence_of(here.plane, case.log, here.basis)
        makers = makers_of(here.basis, evidence, spreads=here.spreads)
        first = 1 + int(np.argmax(makers.chances[1:]))
        before: tuple[str, ...] = ()
        after: tuple[str, ...] = ()
        if name in AGAIN_ON and place < AGAIN * len(KINDS):
            version = propose_version(here.plane, case.log, mend=False)
            before, after = flown_left(version, case, generator)
        rows.append((name, case.cause, bool(makers.abnormal), CAUSES[first].name,
                     float(makers.chances[first]), len(before), len(after)))  # fmt: skip
    return rows


def flights_table(rows: list[Flight]) -> list[str]:
    """How often the cause named first is the one that was flown.

    Args:
        rows: From flights_of. [-]

    Returns:
        Lines of Markdown.

    Source:
        Definition.

    Example:
        >>> flights_table([])[0]
        ''
    """
    lines = ["", "## One fault of builders' size, flown whole", "",
             "Twist of 2 to 3 deg between the panels, 2.5 to 4 % of the mass at a tip, thrust line "
             "4 to 5 deg,", "CG 9 to 12 % of the chord, wing 1.5 to 2.5 deg, drag + 50 to 70 %, "
             "mass + 20 to 30 %, thrust - 35 to 45 %;", "the whole test card flown in six degrees "
             "of freedom; ticks, trims, one glide and the weight written down.", "Where the plane "
             "as drawn would have shown the same there is nothing to see, and nothing is named.",
             f"Of the first {AGAIN * len(KINDS)} builders of {' and '.join(AGAIN_ON)} the next "
             "version was flown whole as well.",
             "", "| plane | fault | cases | nothing to see | named first, of the rest "
             "| else named | symptom gone when flown again |",
             "|---|---|---|---|---|---|---|"]  # fmt: skip
    for plane in dict.fromkeys(row[0] for row in rows):
        here = [row for row in rows if row[0] == plane]
        for kind in KINDS:
            title = CAUSES[PLACE[kind]].title
            lines.append(_flights_row(plane, title, [r for r in here if r[1] == kind]))
        lines.append(_flights_row(plane, "all", here))
        said = np.mean([row[4] for row in here if row[2]])
        lines.append(f"| {plane} | mean chance told | | | {100 * said:.0f} % | | |")
    return lines


def _flights_row(plane: str, title: str, rows: list[Flight]) -> str:
    seen = [row for row in rows if row[2]]
    right = sum(row[3] == row[1] for row in seen)
    wrong = ", ".join(sorted({row[3] for row in seen if row[3] != row[1]})).replace("_", " ")
    found = f"{right} of {len(seen)} ({100 * right / len(seen):.0f} %)" if seen else "-"
    ticked = [row for row in rows if row[5]]
    gone = sum(not row[6] for row in ticked)
    again = f"{gone} of {len(ticked)}" if ticked else "-"
    counts = f"{len(rows)} | {len(rows) - len(seen)}"
    return f"| {plane} | {title} | {counts} | {found} | {wrong} | {again} |"


def picture_of(ranks: np.ndarray, path: Path) -> None:
    """Draw how often bands of every width held the truth.

    Args:
        ranks: From ranks_of. [-]
        path: File to write. [-]

    Source:
        Definition.

    Example:
        >>> picture_of(ranks, PICTURE)  # doctest: +SKIP
    """
    import matplotlib as mpl
    from matplotlib.figure import Figure

    mpl.rcParams["svg.hashsalt"] = "foamwright"
    figure = Figure(figsize=(7.2, 4.8))
    axes = figure.add_subplot(111)
    axes.plot([0, 1], [0, 1], color="0.6", linewidth=1)
    axes.plot([0.8, 0.8], [0.75, 0.85], color="#b0552f", linewidth=4, label="asked for")
    for column, one in enumerate(READOUTS):
        inside = np.abs(ranks[:, column, None] - 0.5) < 0.5 * SHARES
        axes.plot(SHARES, inside.mean(axis=0), linewidth=1, label=one.name.replace("_", " "))
    axes.set_xlabel("width of the band")
    axes.set_ylabel("share of builders whose truth it holds")
    axes.set_title(f"{len(ranks)} made-up builders, seen only through their logbooks")
    axes.legend(fontsize=6, ncol=2, loc="upper left")
    figure.savefig(path, metadata={"Date": None})


def changes_of(job: tuple[str, int, int]) -> list[int]:
    """Changes that are proposed to builders of a plane with nothing off.

    Args:
        job: Plane, builders, seed. [-]

    Returns:
        One count a builder, seen through whole made-up logbooks.

    Source:
        Definition.

    Example:
        >>> changes_of(("brindle-cob", 1, 1))  # doctest: +SKIP
        [0]
    """
    name, builders, seed = job
    here, generator = opened(name), np.random.default_rng(seed)
    nothing = np.zeros((1, len(here.spreads)))
    found: list[int] = []
    for _ in range(builders):
        log = notes_of(here.plane, here.basis, nothing, generator, everything=True)
        found.append(len(propose_version(here.plane, log, mend=False).changes))
    return found


def others_table(others: dict[tuple[float, float], list[Row]], counts: list[int]) -> list[str]:
    """Sizes that nothing was chosen by, and planes with nothing off.

    Args:
        others: Sizes and their rows from faults_of. [-]
        counts: From changes_of. [-]

    Returns:
        Lines of Markdown.

    Source:
        Definition.

    Example:
        >>> others_table({}, [0, 1])[-1]
        'Nothing off at all: no change in 1 of 2 planes, 0.5 changes in the mean.'
    """
    lines = ["", "## Other sizes, and nothing off", "",
             "| size of the fault | cases | named first, whole log | named first, some of it "
             "| symptom seen | gone in the next version |",
             "|---|---|---|---|---|---|"]  # fmt: skip
    for sizes, rows in others.items():
        lines.append(_counted(f"{sizes[0]:g} to {sizes[1]:g} times", rows))
    none = sum(not count for count in counts)
    lines += ["", f"Nothing off at all: no change in {none} of {len(counts)} planes, "
              f"{np.mean(counts):.1f} changes in the mean."]  # fmt: skip
    return lines


def page_of(
    ranks: np.ndarray,
    rows: list[Row],
    flights: list[Flight],
    *,
    others: dict[tuple[float, float], list[Row]],
    counts: list[int],
) -> str:
    """The tables of the page.

    Args:
        ranks: From ranks_of. [-]
        rows: From faults_of. [-]
        flights: From flights_of. [-]
        others: Sizes and their rows from faults_of. [-]
        counts: From changes_of. [-]

    Returns:
        Markdown.

    Source:
        Definition.

    Example:
        >>> page_of(ranks, rows, flights, others={}, counts=[0])[:1]  # doctest: +SKIP
        '#'
    """
    lines = ["# Learning, calibrated", "", "Written by `python tools/calibrate_learning.py`.", "",
             f"{len(ranks)} made-up builders on {', '.join(PLANES)}; hidden faults drawn from what "
             "is usual, seen", "only through the logbook that a pilot would fill. A band of 80 % "
             "should hold the truth in 75 to 85 %.", "",
             "![calibration](../pictures/learning-calibration.svg)", "",
             "| quantity | 80 % band holds the truth | 50 % band |", "|---|---|---|"]  # fmt: skip
    for column, one in enumerate(READOUTS):
        away = np.abs(ranks[:, column] - 0.5)
        held = [100.0 * float((away < 0.5 * share).mean()) for share in (0.8, 0.5)]
        lines.append(f"| {one.title} | {held[0]:.1f} % | {held[1]:.1f} % |")
    lines += ["", "## One fault at a time", "",
              "Nothing off but one thing, by 1 to 1.3 times what builders meet (causes.py).",
              "Half of the logbooks hold all that card and book ask for (two flights, weigh-in,",
              "twist, charge, glide, fly-by), half only some of it.", "",
              "| fault | cases | named first, whole log | named first, some of it "
              "| symptom seen | gone in the next version |",
              "|---|---|---|---|---|---|"]  # fmt: skip
    lines += [_counted(c.title, [r for r in rows if r[0] == c.name]) for c in CAUSES[1:]]
    lines.append(_counted("all", rows))
    lines += others_table(others, counts)
    lines += flights_table(flights)
    return "\n".join(lines) + "\n"


def _counted(title: str, rows: list[Row]) -> str:
    named = [_named(rows, whole=whole) for whole in (True, False)]
    seen = [row for row in rows if row[2]]
    gone = f"{100 * np.mean([not row[3] for row in seen]):.0f} %" if seen else "none seen"
    return f"| {title} | {len(rows)} | {named[0]} | {named[1]} | {len(seen)} | {gone} |"


def _named(rows: list[Row], *, whole: bool) -> str:
    right = [row[1] == row[0] for row in rows if row[4] == whole]
    return f"{100 * np.mean(right):.0f} %" if right else "-"


def main() -> None:
    """Run the whole calibration on all cores and write page and picture."""
    builders, faults = (
        int(word) for word in (*sys.argv[1:3], *(BUILDERS, FAULTS)[len(sys.argv) - 1 :])
    )
    each = -(-builders // len(PLANES))
    jobs = [(name, each, 100 + place) for place, name in enumerate(PLANES)]
    few = -(-faults // len(PLANES))
    cases = [
        (name, cause.name, few, 1000 + 31 * place + row)
        for place, name in enumerate(PLANES)
        for row, cause in enumerate(CAUSES[1:])
    ]
    with ProcessPoolExecutor() as pool:
        ranks = np.concatenate(list(pool.map(ranks_of, jobs)))
        rows = [row for found in pool.map(faults_of, cases) for row in found]
        fewer = [(name, cause, 1, seed + 7000) for name, cause, _, seed in cases]
        others = {
            sizes: [row for found in pool.map(partial(faults_of, sizes=sizes), fewer)
                    for row in found]
            for sizes in OTHER
        }  # fmt: skip
        nothing = pool.map(changes_of, [(name, FAULTLESS, 77) for name in PLANES])
        counts = [count for found in nothing for count in found]
        flown = pool.map(flights_of, [(name, FLOWN, 500) for name in FLOWN_ON])
        flights = [row for found in flown for row in found]
    picture_of(ranks, PICTURE)
    PAGE.write_text(page_of(ranks, rows, flights, others=others, counts=counts), encoding="utf-8")
    sys.stdout.write(f"{PAGE}\n")


if __name__ == "__main__":
    main()
