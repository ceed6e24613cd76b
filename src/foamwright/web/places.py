"""The places of the workshop, in the order of the job."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from foamwright.web.place_balance import build_balance
from foamwright.web.place_beside import build_beside
from foamwright.web.place_file import build_file
from foamwright.web.place_power import build_power
from foamwright.web.place_shape import build_shape, build_solid
from foamwright.web.place_sheets import build_sheets
from foamwright.web.place_strength import build_strength

PLACES: dict[str, tuple[str, Callable[[Any], None]]] = {
    "shape": ("shape", build_shape),
    "balance": ("balance", build_balance),
    "power": ("power", build_power),
    "strength": ("strength", build_strength),
    "sheets": ("sheets", build_sheets),
    "beside": ("side by side", build_beside),
    "solid": ("in the round", build_solid),
    "file": ("file", build_file),
}
ALONE = ("sheets", "file", "solid", "beside")  # places that need the width of the page
