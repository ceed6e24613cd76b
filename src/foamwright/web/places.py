"""The places of the workshop, in the order of the job: found by their files, place_*.py."""

from __future__ import annotations

import pkgutil
from importlib import import_module

import foamwright.web
from foamwright.web.place import Place

FIRST = "shape"  # shown when none is asked for


def find_places() -> dict[str, Place]:
    """Every place that has a file here; a new one is added by adding its file.

    Returns:
        Name -> place, in the order of the job. [-]

    Source:
        Definition.

    Example:
        >>> "shape" in find_places()
        True
    """
    found: list[Place] = []
    for module in pkgutil.iter_modules(foamwright.web.__path__):
        if module.name.startswith("place_"):
            found += import_module(f"foamwright.web.{module.name}").PLACES
    return {place.name: place for place in sorted(found, key=lambda place: place.order)}


PLACES = find_places()
