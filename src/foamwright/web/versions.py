"""Versions of a plane that can be laid side by side."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from foamwright.core.errors import FoamwrightError, OutputError
from foamwright.core.files import read_text
from foamwright.opening import load_text
from foamwright.web.folder import designs, inside, name_in

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.web.page import Page

NOW = "now"
KEPT = 12  # saved versions offered
STEPS = 8  # steps back offered
FILES = 24  # other designs of the folder offered


@dataclass(frozen=True, slots=True)
class Version:
    """One version to choose.

    Attributes:
        id: In the address.
        words: In the list.
        group: Under which it is listed.
        open: Makes the plane; slow.
    """

    id: str
    words: str
    group: str
    open: Callable[[], Plane]


def versions_of(page: Page) -> dict[str, Version]:
    """Everything that can be laid beside the plane of a page.

    Args:
        page: The page. [-]

    Returns:
        Id -> version: this plane now, put aside, saved and before; changes that were worked out;
        other planes of the folder.

    Source:
        Definition.

    Example:
        >>> list(versions_of(page))[0]  # doctest: +SKIP
        'now'
    """
    listed = (*_present(page), *_changes(page), *_kept(page), *_others(page))
    return {version.id: version for version in listed}


def _present(page: Page) -> Iterator[Version]:
    desk, group = page.desk, "this plane"

    def opened(text: str) -> Callable[[], Plane]:
        return lambda: load_text(text, desk.file)

    yield Version(NOW, "as it is now", group, page.plane)
    if desk.held is not None:
        held = desk.held
        yield Version("held", "put aside", group,
                      lambda: held.plane or load_text(held.text, desk.file))  # fmt: skip
    if desk.changed and desk.saved:
        yield Version("saved", "as last saved", group, opened(desk.saved))
    for back, step in enumerate(desk.before(STEPS), 1):
        yield Version(f"back-{back}", f"before: {step.words}", group, opened(step.text))


def _changes(page: Page) -> Iterator[Version]:
    checks = page.look.checks if page.look is not None else ()
    titles = {check.id: check.title for check in checks}
    for name, found in page.mending.changes.items():
        for index, change in enumerate(found):
            values = change.values
            yield Version(
                f"try-{name}-{index}",
                f"{change.words.split(':')[0]} ({titles.get(name, name)})",
                "changes worked out",
                lambda values=values: page.plane().with_values(values),
            )


def _kept(page: Page) -> Iterator[Version]:
    desk = page.desk
    for path in desk.versions()[:KEPT]:
        stamp = path.stem.rpartition("@")[2]
        day, _, clock = stamp.rpartition("-")
        said = f"{day} at {clock[:2]}:{clock[2:4]}:{clock[4:]}" if len(clock) == 6 else stamp
        yield Version(f"kept-{stamp}", f"replaced on {said}", "saved before",
                      lambda path=path: load_text(read_text(path), desk.file))  # fmt: skip


def _others(page: Page) -> Iterator[Version]:
    folder = page.shop.folder
    for path in designs(folder)[:FILES]:
        name = name_in(folder, path)
        if name != page.name:
            yield Version(f"file-{name}", name, "other planes here",
                          lambda name=name: _other(page, name))  # fmt: skip


def _other(page: Page, name: str) -> Plane:
    file = inside(page.shop.folder, name)
    return load_text(read_text(file), file)


def open_version(page: Page, name: str) -> tuple[Version, Plane]:
    """A version by its id.

    Args:
        page: The page. [-]
        name: Id of the version. [-]

    Returns:
        The version and its plane.

    Raises:
        FoamwrightError: It is no longer there, or cannot be read.

    Source:
        Definition.

    Example:
        >>> open_version(page, "now")[0].words  # doctest: +SKIP
        'as it is now'
    """
    found = versions_of(page).get(name)
    if found is None:
        raise OutputError("That version is no longer there; choose another.")
    try:
        return found, found.open()
    except FoamwrightError as error:
        raise OutputError(f"“{found.words}” cannot be read: {error}") from None
