"""What `check --builds` adds: the share of many builds that passes each check."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.cli.table import paragraph, table

if TYPE_CHECKING:
    from typing import Any

    from foamwright.checks.builds import Builds, Narrowing
    from foamwright.plane import Plane

MOST_SHOWN = 4  # things to measure; more are in the data for programs
SURE = 0.9995


def drawn_builds(plane: Plane, count: int, seed: int) -> Builds:
    """Builds of a plane; the room that draws them is only loaded when asked for.

    Args:
        plane: The plane. [-]
        count: How many. [-]
        seed: Same seed, same builds. [-]

    Returns:
        The builds.

    Raises:
        ModelError: Too few or too many.

    Source:
        Definition.

    Example:
        >>> drawn_builds(plane, 2000, 0).all_pass  # doctest: +SKIP
        0.46
    """
    from foamwright.checks.builds import builds_of

    return builds_of(plane, count=count, seed=seed)


def builds_data(builds: Builds) -> dict[str, Any]:
    """The same as plain data in SI.

    Args:
        builds: Many builds of one plane. [-]

    Returns:
        Keys count, seed, all_pass, mass, cg_x, narrowings. [-]

    Source:
        docs/use/uncertainty.md.

    Example:
        >>> builds_data(builds)["count"]  # doctest: +SKIP
        2000
    """
    from dataclasses import asdict

    data = asdict(builds)
    del data["shares"]
    return data


def builds_report(plane: Plane, builds: Builds) -> str:
    """Shares and what to measure, for a person.

    Args:
        plane: The plane. [-]
        builds: Its builds. [-]

    Returns:
        A table and two paragraphs. [-]

    Source:
        Definition.

    Example:
        >>> builds_report(plane, builds)  # doctest: +SKIP
        'Of 2000 builds ...'
    """
    from foamwright.checks.say import say

    titles = {check.id: check.title for check in plane.checks}
    doubted = sorted(
        (each for each in builds.shares if each.how != "fixed" and each.share < SURE),
        key=lambda each: each.share,
    )
    ways = {"full": "each build", "line": "along a line"}
    rows = [(f"{100 * s.share:.0f} %", titles[s.id], ways[s.how]) for s in doubted]
    low, _, high = (say(plane, value, "mass") for value in builds.mass)
    front, _, back = (say(plane, value, "length") for value in builds.cg_x)
    head = (
        f"Of {builds.count} builds drawn from the bands of stock (seed {builds.seed}) "
        f"{100 * builds.all_pass:.0f} % pass every check. Eight in ten weigh {low} to {high} and "
        f"balance {front} to {back} behind the nose."
    )
    blocks = [paragraph(head, indent="  ", first="Builds: ")]
    if rows:
        blocks.append(table(rows, head=("passes", "check", "computed"), right="0"))
        blocks.append(paragraph("Checks that are not listed pass in every build or are not moved."))
    blocks += [
        paragraph(f"{number}. {_narrowing_words(each, titles)}", indent="   ")
        for number, each in enumerate(builds.narrowings[:MOST_SHOWN], start=1)
    ]
    if builds.narrowings:
        blocks.insert(-min(MOST_SHOWN, len(builds.narrowings)), "To know more, in this order:")
    return "\n".join(blocks) + "\n"


def _narrowing_words(each: Narrowing, titles: dict[str, str]) -> str:
    parts = [f"takes away {100 * each.verdicts:.0f} % of the doubt about passing"]
    for share, noun in ((each.cg, "balance point"), (each.mass, "mass")):
        if share >= 0.05:
            parts.append(f"narrows the spread of the {noun} by {100 * share:.0f} %")
    settled = ", ".join(titles[name].lower() for name in each.settles[:3])
    words = each.words[:1].upper() + each.words[1:]
    return f"{words}: {', '.join(parts)}{f' (most: {settled})' if settled else ''}."
