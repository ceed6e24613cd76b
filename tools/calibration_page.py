"""The tables and the picture of docs/physics/learning-calibration.md; see calibrate_learning.py."""

from pathlib import Path

import numpy as np

from foamwright.logbook.causes import CAUSES, PLACE
from foamwright.logbook.readout import READOUTS
from foamwright.logbook.rehearse_flights import KINDS

PLANES = ("brindle-cob", "tansy-drift", "quillon-a", "farrowlight", "sixpence")
# Builders of each kind whose next version is flown whole as well, on which planes: half a minute of
# one core each, so none unless asked for.
AGAIN, AGAIN_ON = 0, ("brindle-cob", "farrowlight")
SHARES = np.arange(0.1, 0.95, 0.1)
type Flight = tuple[str, str, bool, str, float, int, int]
type Row = tuple[str, str, int, int, bool]


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
