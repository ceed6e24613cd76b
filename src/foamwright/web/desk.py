"""A design on the desk: its text, its plane, every step back, its file on the disk."""

from __future__ import annotations

import contextlib
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.core.errors import DesignError, DesignErrors, FoamwrightError
from foamwright.core.files import read_text, write_atomically
from foamwright.design.write import apply_values
from foamwright.logbook.store import log_file
from foamwright.opening import load_text

if TYPE_CHECKING:
    from foamwright.design.change import Value
    from foamwright.plane import Plane
    from foamwright.web.look import Look

VERSIONS = ".foamwright"  # folder beside the design that keeps what was saved before
KEPT_PLANES = 12  # steps back whose results are kept; older ones are computed again


@dataclass(slots=True)
class Step:
    """One state of the design.

    Attributes:
        text: The whole design file.
        words: What led to it.
        plane: Its results; None when they are to be computed again.
    """

    text: str
    words: str
    plane: Plane | None = None


def recovery_file(file: Path) -> Path:
    """Where unsaved work of a design is kept.

    Args:
        file: The design file. [-]

    Returns:
        A hidden file beside it. [-]

    Source:
        Definition.

    Example:
        >>> recovery_file(Path("cob.toml")).name
        '.cob.unsaved.toml'
    """
    return file.with_name(f".{file.stem}.unsaved.toml")


def errors_of(error: FoamwrightError) -> tuple[DesignError, ...]:
    """The single faults in an explained error.

    Args:
        error: As raised. [-]

    Returns:
        At least one fault, with its line where known. [-]

    Source:
        Definition.

    Example:
        >>> errors_of(FoamwrightError("odd"))[0].got
        'odd'
    """
    if isinstance(error, DesignErrors):
        return error.errors
    return (error,) if isinstance(error, DesignError) else (DesignError("", str(error), ""),)


class Desk:
    """One design file that is being worked on; every page that shows it shares it."""

    def __init__(self, file: Path, text: str | None = None) -> None:
        self.file = file
        self.held: Step | None = None  # put aside to compare with
        self.generation = 0  # goes up with every change, so that late results are known as late
        self.on_disk: str | None = None  # what another program has written meanwhile
        self.faults: tuple[DesignError, ...] = ()
        self.hand = 0.0  # when a dimension was last seen being dragged, so that slow work rests
        self.lock = threading.Lock()
        self.seen: Look | None = None  # what pages show of the plane, made once for all of them
        self._listeners: list[Callable[[], None]] = []
        self.new = text is not None
        self.saved = "" if text is not None else read_text(file)
        self._steps = [Step(text if text is not None else self.saved, "opened")]
        self._at = 0
        self._stamp = self._look()
        self._beside = self._look_beside()
        self.unsaved = self._recoverable()
        self._open(self._steps[0])

    # ------------------------------------------------------------ what it holds

    @property
    def text(self) -> str:
        """The design file as it is now."""
        return self._steps[self._at].text

    @property
    def plane(self) -> Plane | None:
        """The plane; None as long as the text cannot be read."""
        step = self._steps[self._at]
        if step.plane is None and not self.faults:
            self._open(step)
        return step.plane

    @property
    def changed(self) -> bool:
        """Whether there is work that the file does not hold."""
        return self.text != self.saved

    @property
    def back(self) -> str:
        """What undo would take back; "" when there is nothing."""
        return self._steps[self._at].words if self._at else ""

    @property
    def forward(self) -> str:
        """What redo would do again; "" when there is nothing."""
        return self._steps[self._at + 1].words if self._at + 1 < len(self._steps) else ""

    def before(self, most: int) -> list[Step]:
        """Steps that undo would bring back, the nearest first, each with what came after it."""
        places = range(self._at, max(self._at - most, 0), -1)
        return [Step(self._steps[i - 1].text, self._steps[i].words) for i in places]

    def listen(self, listener: Callable[[], None]) -> Callable[[], None]:
        """Call back after every change; hands back what ends it."""
        self._listeners.append(listener)

        def leave() -> None:
            with contextlib.suppress(ValueError):
                self._listeners.remove(listener)

        return leave

    # ------------------------------------------------------------ changes

    def change(
        self, values: Mapping[str, Value], words: str, *, known: Plane | None = None
    ) -> None:
        """Change values of the design; comments and order stay.

        `known` is a plane that may be the changed one: its results are taken over if it is.
        """
        plane = self.plane
        if plane is None:
            raise DesignErrors(list(self.faults))
        text = apply_values(self.text, values, units=plane.design.units)
        self.put(text, words, known=known)

    def put(self, text: str, words: str, *, known: Plane | None = None) -> None:
        """Take a whole new text as the next step, if it can be read."""
        if text == self.text:
            return
        before = self.plane
        stock = before.stock if before is not None else None
        made = load_text(text, self.file, stock=stock)
        if known is not None and known.design == made.design:
            known.path, made = made.path, known
        step = Step(text, words, made)
        del self._steps[self._at + 1 :]
        self._steps.append(step)
        self._at += 1
        self.faults = ()
        self._changed()

    def undo(self) -> None:
        """Take the last step back."""
        self._go(self._at - 1)

    def redo(self) -> None:
        """Do the step again that was taken back last."""
        self._go(self._at + 1)

    def hold(self, step: Step | None) -> None:
        """Put a version aside to compare with; None puts the present one aside."""
        self.held = step or Step(self.text, "put aside", self.plane)
        if self.held.plane is None:
            self.held.plane = load_text(self.held.text, self.file)
        self.tell()

    def release(self) -> None:
        """End the comparison."""
        self.held = None
        self.tell()

    def _go(self, place: int) -> None:
        if 0 <= place < len(self._steps):
            self._at = place
            self.faults = ()
            self._changed()

    def _open(self, step: Step) -> None:
        try:
            step.plane = load_text(step.text, self.file)
            self.faults = ()
        except FoamwrightError as error:
            self.faults = errors_of(error)

    def _changed(self) -> None:
        self.generation += 1
        near = range(self._at - KEPT_PLANES, self._at + KEPT_PLANES)
        for place in (near.start - 1, near.stop):
            if 0 < place < len(self._steps):
                self._steps[place].plane = None
        self._keep_unsaved()
        self.tell()

    def tell(self) -> None:
        """Let every page that shows this design look again."""
        for listener in tuple(self._listeners):
            listener()

    # ------------------------------------------------------------ the disk

    def save(self) -> None:
        """Write the file whole or not at all, and keep what it held before as a version."""
        if not self.new and self.saved and self.saved != self.text:
            self._keep_version(self.saved)
        write_atomically(self.file, self.text, overwrite=True)
        self.new = False
        self._written()

    def _written(self) -> None:
        self.saved, self.on_disk, self._stamp = self.text, None, self._look()
        with contextlib.suppress(OSError):
            recovery_file(self.file).unlink(missing_ok=True)
        self.unsaved = None
        self.tell()

    def look_again(self) -> bool:
        """See whether another program has written the file; True when there is news."""
        beside = self._look_beside()
        if beside != self._beside:
            self._beside = beside
            self.tell()
        stamp = self._look()
        if stamp == self._stamp or stamp is None:
            return False
        self._stamp = stamp
        try:
            text = read_text(self.file)
        except FoamwrightError:
            return False
        if text == self.text:
            self.saved, self.on_disk = text, None
        elif text != self.saved:
            self.on_disk = text
        else:
            return False
        self.tell()
        return True

    def take_disk(self) -> None:
        """Take what the other program wrote; what was here stays one undo away."""
        text, self.on_disk = self.on_disk, None
        if text is not None:
            self.saved = text
            self.put(text, "taken from the disk")
        self.tell()

    def keep_mine(self) -> None:
        """Go on with what is here; the next save writes over the other program's text."""
        if self.on_disk is not None:
            self._keep_version(self.on_disk)
            self.saved = self.on_disk
        self.on_disk = None
        self.tell()

    def take_unsaved(self) -> None:
        """Go on with work that was never saved."""
        text, self.unsaved = self.unsaved, None
        if text is not None:
            self.put(text, "unsaved work taken up")
        self.tell()

    def drop_unsaved(self) -> None:
        """Throw away work that was never saved."""
        self.unsaved = None
        with contextlib.suppress(OSError):
            recovery_file(self.file).unlink(missing_ok=True)
        self.tell()

    def versions(self) -> list[Path]:
        """What the file held before each save, newest first."""
        folder = self.file.parent / VERSIONS
        return sorted(folder.glob(f"{self.file.stem}@*.toml"), reverse=True)

    def _keep_version(self, text: str) -> None:
        folder = self.file.parent / VERSIONS
        stamp = datetime.now(UTC).astimezone().strftime("%Y-%m-%d-%H%M%S")
        with contextlib.suppress(OSError, FoamwrightError):
            folder.mkdir(exist_ok=True)
            write_atomically(folder / f"{self.file.stem}@{stamp}.toml", text, overwrite=True)

    def _keep_unsaved(self) -> None:
        if self.new and not self.file.parent.exists():
            return
        with contextlib.suppress(FoamwrightError, OSError):
            if self.changed:
                write_atomically(recovery_file(self.file), self.text, overwrite=True)
            else:
                recovery_file(self.file).unlink(missing_ok=True)

    def _recoverable(self) -> str | None:
        try:
            text = read_text(recovery_file(self.file))
        except FoamwrightError:
            return None
        return text if text != self._steps[0].text else None

    def _look(self, file: Path | None = None) -> tuple[int, int] | None:
        try:
            found = (file or self.file).stat()
        except OSError:
            return None
        return found.st_mtime_ns, found.st_size

    def _look_beside(self) -> tuple[int, int] | None:
        return self._look(log_file(self.file))
