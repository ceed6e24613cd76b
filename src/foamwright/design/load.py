"""Read a design file."""

import tomllib
from dataclasses import dataclass
from pathlib import Path

from foamwright.design.fields import FROM_FILE
from foamwright.design.model import Design


@dataclass(frozen=True, slots=True)
class Loaded:
    """A design with the text it came from."""

    design: Design
    text: str
    path: Path | None
    defaults_used: tuple[str, ...]


def read_design(path: str | Path) -> Loaded:
    """Read one file."""
    file = Path(path)
    text = file.read_text(encoding="utf-8")
    return Loaded(Design.model_validate(tomllib.loads(text), context=FROM_FILE), text, file, ())
