"""Errors meant for people: what, where, what is accepted, how to mend."""

from dataclasses import dataclass


class FoamwrightError(Exception):
    """Any error that Foamwright explains in words; faces print it without a traceback."""

    def __str__(self) -> str:
        # Rooms that know no design glue numbers to their units, see core.words.
        return super().__str__().replace("\u00a0", " ")


@dataclass(unsafe_hash=True)  # not frozen: Python writes the traceback into a passing exception
class DesignError(FoamwrightError):
    """One thing wrong with a design or stock file.

    The parts stay separate so that a page can mark the field.

    Attributes:
        field: Dotted key, such as "wing.panel.0.span"; empty for the file as a whole.
        got: The value found, as the builder would read it.
        allowed: What is accepted, in words.
        fix: How to mend it, one sentence.
        file: Name of the file; empty when unknown.
        line: Line number from 1; 0 when unknown.
    """

    field: str
    got: str
    allowed: str
    fix: str = ""
    file: str = ""
    line: int = 0

    def __str__(self) -> str:
        where = f"{self.file}:{self.line}: " if self.file and self.line else ""
        if self.file and not self.line:
            where = f"{self.file}: "
        subject = f"{self.field} is {self.got}" if self.field else self.got
        text = f"{where}{subject}; {self.allowed}." if self.allowed else f"{where}{subject}."
        return f"{text} {self.fix}".replace("\u00a0", " ").rstrip()


class DesignErrors(FoamwrightError):
    """Every error of one file, shown together."""

    def __init__(self, errors: list[DesignError]) -> None:
        self.errors = tuple(errors)
        super().__init__("\n".join(str(error) for error in errors))


class OutputError(FoamwrightError):
    """A file could not be written: what, where, how to mend."""


class ModelError(FoamwrightError):
    """The physics was asked something outside what it can answer; says what and why."""
