"""Join the fragments under docs/ into one page each, and refresh the help texts.

python tools/join_docs.py           write nomenclature, sources, changelog and command-line pages
python tools/join_docs.py --check   exit 1 when one of them is not what would be written
"""

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
DOCS = ROOT / "docs"
JOINED = "Joined by tools/join_docs.py; edit the files in {} instead."
WIDTH = 88  # columns of the help texts in the docs
SHOWN = 3  # findings that the README shows
NAMES = """# Nomenclature

One word per quantity, SI inside. x is aft of the nose, y to the right, z up; nose-up moments are
positive; angles are counted from the fuselage line. Lengths are in metres whatever the design file
said them in.

"""
SOURCES = """# Sources

What `[KEY]` stands for in docstrings, tests and reports, and whether it was seen or is from memory.

"""
CHANGES = """# Changelog

"numbers" lists which results move, and by how much, on the example planes.

"""
KINDS = {"numbers": "Numbers", "added": "Added", "fixed": "Fixed", "removed": "Removed"}


def rows_of(text: str) -> list[tuple[str, ...]]:
    """Cells of every table row in a page, heads and rules left out."""
    rows = []
    for line in text.splitlines():
        if not line.startswith("|"):
            continue
        cells = tuple(
            cell.strip() for cell in re.split(r"(?<!\\)\|", line.strip().removesuffix("|"))[1:]
        )
        if cells and cells[0] != "name" and not set(cells[0]) <= set("-: "):
            rows.append(cells)
    return rows


def nomenclature() -> str:
    """Text of docs/nomenclature.md."""
    lines = []
    for page in sorted((DOCS / "nomenclature.d").glob("*.md")):
        for cells in rows_of(page.read_text(encoding="utf-8")):
            padded = (*cells, "", "", "", "")[:4]
            lines.append((padded[0].strip("`").lower(), page.stem, padded))
    out = [NAMES + JOINED.format("docs/nomenclature.d") + "\n"]
    out += ["| name | meaning | unit | sign, datum | room |", "|---|---|---|---|---|"]
    out += ["| " + " | ".join((*cells, room)) + " |" for _, room, cells in sorted(lines)]
    return "\n".join(out) + "\n"


def sources() -> str:
    """Text of docs/sources.md: one entry a key, with all rooms that cite it."""
    entries: dict[str, tuple[str, list[str]]] = {}
    for page in sorted((DOCS / "sources.d").glob("*.md")):
        text = page.read_text(encoding="utf-8")
        for match in re.finditer(r"^- \[([^\]]+)\] (.+(?:\n(?:  ).+)*)", text, re.M):
            key, words = match.group(1), re.sub(r"\s+", " ", match.group(2)).strip()
            known, rooms = entries.setdefault(key, (words, []))
            entries[key] = (max(known, words, key=len), [*rooms, page.stem])
    out = [SOURCES + JOINED.format("docs/sources.d") + "\n"]
    out += [
        f"- [{key}] {words} Used by: {', '.join(rooms)}."
        for key, (words, rooms) in sorted(entries.items(), key=lambda entry: entry[0].lower())
    ]
    return "\n".join(out) + "\n"


def changelog() -> str:
    """Text of CHANGELOG.md: the fragments of the coming version, by kind."""
    out = [CHANGES + JOINED.format("docs/changelog.d") + "\n", "## Unreleased"]
    for kind, title in KINDS.items():
        pages = sorted((DOCS / "changelog.d").glob(f"*.{kind}.md"))
        if not pages:
            continue
        out.append(f"\n### {title}\n")
        for page in pages:
            text = page.read_text(encoding="utf-8").strip()
            lines = text.splitlines() if text.startswith("- ") else ["- " + " ".join(text.split())]
            out += lines
    return "\n".join(out) + "\n"


def help_of(words: list[str]) -> str:
    """What `foamwright WORDS --help` prints at a fixed width."""
    from click.testing import CliRunner

    from foamwright.cli.command import foamwright

    return (
        CliRunner()
        .invoke(
            foamwright,
            [*words, "--help"],
            prog_name="foamwright",
            terminal_width=WIDTH,
            color=False,
        )
        .output
    )


def command_line() -> str:
    """Text of docs/use/command-line.md with each help text as the command prints it today."""
    page = (DOCS / "use" / "command-line.md").read_text(encoding="utf-8")

    def fresh(match: re.Match[str]) -> str:
        return f"```text\n$ foamwright {match.group(1)}--help\n{help_of(match.group(1).split())}```"

    return re.sub(r"```text\n\$ foamwright ((?:\w+ )?)--help\n.*?```", fresh, page, flags=re.S)


def findings_of(design: str) -> str:
    """Start of what `foamwright check` prints of an example: its first findings."""
    import os

    import click

    from foamwright.cli.findings import report
    from foamwright.opening import load

    os.environ["COLUMNS"] = str(WIDTH)
    plane = load(ROOT / design)
    plane.path = Path(design)
    blocks = click.unstyle(report(plane)).strip().split("\n\n")
    return "\n\n".join([*blocks[: 1 + SHOWN], "[...]"])


def readme() -> str:
    """Text of README.md with the check report of its example as it is today."""
    page = (ROOT / "README.md").read_text(encoding="utf-8")

    def fresh(match: re.Match[str]) -> str:
        design = match.group(1)
        return f"```text\n$ foamwright check {design}\n{findings_of(design)}\n```"

    return re.sub(r"```text\n\$ foamwright check (\S+)\n.*?```", fresh, page, flags=re.S)


PAGES = {
    "../README.md": readme,
    "../CHANGELOG.md": changelog,
    "nomenclature.md": nomenclature,
    "sources.md": sources,
    "use/command-line.md": command_line,
}


def without_numbers(text: str) -> str:
    """The same text with numbers left out: a last digit may differ between machines."""
    return " ".join(re.sub(r"[-+]?\d[\d./]*( \d+/\d+)?", "#", text).split())


def same(name: str, kept: str, fresh: str) -> bool:
    """Whether a page is up to date; computed figures in the README may move a little."""
    if name == "../README.md":
        return without_numbers(kept) == without_numbers(fresh)
    return kept == fresh


def stale() -> list[str]:
    """Pages that are not what would be written."""
    return [
        name
        for name, text in PAGES.items()
        if not (DOCS / name).exists()
        or not same(name, (DOCS / name).read_text(encoding="utf-8"), text())
    ]


def main(arguments: list[str]) -> int:
    """Write the pages, or with --check only compare them."""
    if "--check" in arguments:
        names = stale()
        print("\n".join(f"docs/{name} is not up to date" for name in names) or "up to date")
        return 1 if names else 0
    for name, text in PAGES.items():
        (DOCS / name).write_text(text(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
