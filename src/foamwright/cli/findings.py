"""The check report that a person reads."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import click

from foamwright.cli.table import paragraph
from foamwright.core.verdicts import GRAVEST_FIRST, Verdict

if TYPE_CHECKING:
    from foamwright.core.verdicts import Change, Check
    from foamwright.plane import Plane

COLOURS = {
    Verdict.FAILS: "red",
    Verdict.CLOSE: "yellow",
    Verdict.CANNOT_SAY: "cyan",
    Verdict.HOLDS: "green",
}
COUNTED = {
    Verdict.FAILS: ("fails", "fail"),
    Verdict.CLOSE: ("is close", "are close"),
    Verdict.CANNOT_SAY: ("cannot be said", "cannot be said"),
    Verdict.HOLDS: ("holds", "hold"),
}


def by_gravity(checks: Sequence[Check]) -> list[Check]:
    """Sort checks, gravest first, and by margin within one verdict.

    Args:
        checks: In any order. [-]

    Returns:
        The same, sorted. [-]

    Source:
        Definition.

    Example:
        >>> by_gravity([])
        []
    """
    return sorted(
        checks,
        key=lambda check: (
            GRAVEST_FIRST.index(check.verdict),
            check.margin if check.margin is not None else 0.0,
        ),
    )


def percent(ratio: float) -> str:
    """A ratio as people read it, with its sign.

    Args:
        ratio: 1 is the whole. [-]

    Returns:
        Text such as "+9 %". [-]

    Source:
        Definition.

    Example:
        >>> percent(0.094), percent(-0.5), percent(12.0)
        ('+9 %', '-50 %', '+1200 %')
    """
    return f"{100 * ratio:+.0f} %"


def tally(checks: Sequence[Check]) -> str:
    """How many checks gave which verdict, in one line.

    Args:
        checks: All of a plane. [-]

    Returns:
        Text such as "1 fails, 2 are close, 31 hold". [-]

    Source:
        Definition.

    Example:
        >>> tally([])
        'no checks'
    """
    counts = [
        (verdict, sum(check.verdict is verdict for check in checks)) for verdict in GRAVEST_FIRST
    ]
    words = [f"{n} {COUNTED[verdict][n > 1]}" for verdict, n in counts if n]
    return ", ".join(words) or "no checks"


def _change_lines(change: Change, *, titles: dict[str, str]) -> str:
    text = change.words.strip().rstrip(".")
    text = text[:1].upper() + text[1:]
    if change.worsened and not any(titles.get(name, name) in text for name in change.worsened):
        text += "; worse: " + ", ".join(titles.get(name, name) for name in change.worsened)
    return paragraph(text + ".", first="      -> ", indent="         ")


def finding(check: Check, *, titles: dict[str, str]) -> str:
    """One check in full: verdict, title, margin, reason, source, changes.

    Args:
        check: The check. [-]
        titles: Check id -> title, to name the checks that a change makes worse. [-]

    Returns:
        Several lines. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.core.verdicts import Check
        >>> check = Check("mass", "All-up mass", Verdict.HOLDS, 0.6, "kg", None, 0.9, 0.5,
        ...               "21 oz of 32 oz.", "common practice", "whole plane")
        >>> print(click.unstyle(finding(check, titles={})))
        HOLDS      All-up mass [whole plane]  margin +50 %
              21 oz of 32 oz. (common practice)
    """
    verdict = click.style(check.verdict.upper().ljust(10), fg=COLOURS[check.verdict], bold=True)
    margin = f"  margin {percent(check.margin)}" if check.margin is not None else ""
    lines = [f"{verdict} {check.title} [{check.place}]{margin}"]
    lines.append(paragraph(f"{check.why} ({check.source})", indent="      "))
    lines += [_change_lines(change, titles=titles) for change in check.changes]
    return "\n".join(lines)


def _in_brief(checks: Sequence[Check]) -> str:
    """What holds, one line of titles with margins."""
    words: list[str] = []
    for check in checks:
        title = (
            check.title[:1].lower() + check.title[1:] if check.title[1:2].islower() else check.title
        )
        words.append(f"{title} {percent(check.margin)}" if check.margin is not None else title)
    return paragraph("; ".join(words) + ".", first="Holds: ", indent="  ")


def grouped(used: Sequence[tuple[str, str]]) -> list[str]:
    """Defaults by table, with those that several servos or panels share named once.

    Args:
        used: Dotted key and what was taken for it, in words. [-]

    Returns:
        One text a table. [-]

    Source:
        Definition.

    Example:
        >>> grouped([("motor.kv", "from stock"), ("motor.mass", "from stock")])
        ['motor: kv, mass = from stock']
        >>> grouped([("servo.0.arm", "10 mm"), ("servo.1.arm", "10 mm")])
        ['servo: arm = 10 mm']
    """
    tables: dict[str, dict[str, list[str]]] = {}
    for key, words in used:
        plain = [part for part in key.split(".") if not part.isdigit()]
        names = tables.setdefault(".".join(plain[:-1]), {}).setdefault(words, [])
        if plain[-1] not in names:
            names.append(plain[-1])
    return [
        (f"{table}: " if table else "")
        + ", ".join(f"{', '.join(names)} = {words}" for words, names in values.items())
        for table, values in tables.items()
    ]


def _defaults(plane: Plane) -> str:
    from foamwright.design.defaults import defaults_used

    used = [(str(entry["key"]), str(entry["words"])) for entry in defaults_used(plane.design)]
    if not used:
        return ""
    words = "; ".join(grouped(used))
    return paragraph(words + ".", first=f"Defaults used ({len(used)}): ", indent="  ")


def report(plane: Plane, *, show_all: bool = False) -> str:
    """Everything that `check` says of one plane to a person.

    Args:
        plane: The plane. [-]
        show_all: Show checks that hold in full too. [-]

    Returns:
        Several paragraphs. [-]

    Source:
        Definition.

    Example:
        >>> "Brindle Cob" in report(plane)
        True
    """
    checks = by_gravity(plane.checks)
    titles = {check.id: check.title for check in checks}
    holding = [check for check in checks if check.verdict is Verdict.HOLDS]
    shown = checks if show_all else [check for check in checks if check not in holding]
    head = click.style(plane.design.name, bold=True)
    blocks = [f"{head}  ({plane.path})\n{tally(checks)}"]
    blocks += [finding(check, titles=titles) for check in shown]
    if holding and not show_all:
        blocks.append(_in_brief(holding))
    blocks.append(_defaults(plane))
    return "\n\n".join(block for block in blocks if block) + "\n"
