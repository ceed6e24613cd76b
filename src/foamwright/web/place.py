"""What a place of the workshop is; each stands in a file of its own, named place_*.py."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class Place:
    """One place along the tape.

    Attributes:
        name: In the address.
        title: On the tape.
        order: Along the tape, rising with the job; places leave room between them.
        build: Lays it out on a page.
        alone: Whether it needs the width of the page, so that the findings stand aside.
    """

    name: str
    title: str
    order: int
    build: Callable[[Any], None]
    alone: bool = False
