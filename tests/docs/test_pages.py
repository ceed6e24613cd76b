"""The docs hold every name, source, command and key, and the joined pages are up to date."""

import doctest
import re
import sys

import pytest
from reading import ROOT, project_files, public_functions, source_files
from test_docstrings import listed

sys.path.insert(0, str(ROOT / "tools"))

import join_docs

DOCS = ROOT / "docs"
KEY = re.compile(r"\[([A-Z][A-Za-z0-9&+_.:-]{2,})\]")
UNITS = {"Nms"}


def names_in_nomenclature() -> set[str]:
    names = set()
    for page in (DOCS / "nomenclature.d").glob("*.md"):
        for cells in join_docs.rows_of(page.read_text(encoding="utf-8")):
            names |= set(re.findall(r"\w+", cells[0]))
    return names


def test_every_argument_is_in_the_nomenclature():
    known = names_in_nomenclature()
    offenders = [
        f"{function.where}: {name}"
        for function in public_functions()
        for name in (function.arguments if not function.is_command else [])
        if name not in known
    ]
    listed(offenders)


def cited_keys(text: str) -> set[str]:
    """Keys in Source sections of docstrings and in `source=`-like strings."""
    places = re.findall(r"Source:\n(.*?)(?:\n\s*\n|\"\"\")", text, re.S)
    places += re.findall(r"^.*\bsource\b.*$", text, re.M | re.I)
    places += re.findall(r"^[A-Z_]+ = .*#(.*)$", text, re.M)
    return {key for place in places for key in KEY.findall(place)} - UNITS


def test_every_cited_source_is_listed():
    known = set(re.findall(r"^- \[([^\]]+)\]", join_docs.sources(), re.M))
    files = source_files() + sorted((ROOT / "tests").rglob("*.py"))
    files = [path for path in files if path.parent.name != "docs"]
    listed(
        [
            f"{path.relative_to(ROOT).as_posix()}: [{key}]"
            for path in files
            for key in sorted(cited_keys(path.read_text(encoding="utf-8")) - known)
        ]
    )


@pytest.mark.parametrize("name", sorted(join_docs.PAGES))
def test_joined_pages_are_up_to_date(name):
    kept = (DOCS / name).read_text(encoding="utf-8")
    fresh = join_docs.PAGES[name]()
    assert join_docs.same(name, kept, fresh), f"run: python tools/join_docs.py ({name})"


def test_every_command_and_option_is_documented():
    from foamwright.cli.command import VERBS, verb

    page = (DOCS / "use" / "command-line.md").read_text(encoding="utf-8")
    wanted = [(f"foamwright {name} --help", name) for name in VERBS]
    for name in VERBS:
        options = [text for p in verb(name).params for text in p.opts if text.startswith("--")]
        wanted += [(text, name) for text in options]
    listed(
        [
            f"{name}: {text} is not in docs/use/command-line.md"
            for text, name in wanted
            if text not in page
        ]
    )


def test_the_first_commands_keep_their_names():
    from foamwright.cli.command import VERBS

    first = ["new", "check", "sheets", "parts", "show", "stock"]
    assert [name for name in VERBS if name in first] == first


def keys_of(model, prefix=""):
    """Dotted keys of the design file, tables and lists of tables walked into."""
    for name, info in model.model_fields.items():
        inner = re.findall(r"foamwright\.design\.\w+\.(\w+)", str(info.annotation))
        yield f"{prefix}{name}", inner
        import foamwright.design.model as design

        for table in inner:
            yield from keys_of(getattr(design, table), f"{prefix}{name}.")


def test_every_design_key_is_documented():
    from foamwright.design.model import Design

    pages = "\n".join(page.read_text(encoding="utf-8") for page in (DOCS / "use").glob("*.md"))
    words = set(re.findall(r"[\w.]+", pages))
    last_words = {word.split(".")[-1] for word in words}
    listed(
        [
            key
            for key, inner in keys_of(Design)
            if not inner and key.split(".")[-1] not in last_words
        ]
    )


def test_links_between_pages_lead_somewhere():
    pages = [*DOCS.rglob("*.md"), ROOT / "README.md"]
    listed(
        [
            f"{page.relative_to(ROOT).as_posix()}: {target}"
            for page in pages
            for target in re.findall(r"\]\(([^)#\s]+)", page.read_text(encoding="utf-8"))
            if "://" not in target and not (page.parent / target).exists()
        ]
    )


def test_the_index_leads_to_every_page():
    index = (DOCS / "index.md").read_text(encoding="utf-8")
    folders = ("use", "physics", "decisions")
    pages = [page for folder in folders for page in sorted((DOCS / folder).glob("*.md"))]
    names = [page.relative_to(DOCS).as_posix() for page in pages]
    listed([name for name in names if f"({name})" not in index])


def test_the_readmes_python_lines_say_what_python_says(monkeypatch):
    monkeypatch.chdir(ROOT)
    outcome = doctest.testfile(str(ROOT / "README.md"), module_relative=False, encoding="utf-8")
    assert outcome.attempted >= 4
    assert outcome.failed == 0


def test_changelog_fragments_are_named_by_kind():
    kinds = {"numbers", "added", "fixed", "removed"}
    fragments = [path.name for path in (DOCS / "changelog.d").glob("*.md")]
    listed([name for name in fragments if name.split(".")[-2] not in kinds])


def test_project_files_are_found():
    names = {path.name for path in project_files()}
    assert {"pyproject.toml", "plane.py", "README.md", "run"} <= names
