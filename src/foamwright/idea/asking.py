"""A file of wishes from answers to a few questions."""

from __future__ import annotations

import re
from collections.abc import Mapping

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.idea.reading import parse_wishes

PACK = re.compile(r"^\s*(\d)\s*(?:x|cells?|s)\s*(\d[\d. ]*\s*(?:mAh|Ah))\s*$", re.IGNORECASE)


def wishes_text(said: Mapping[str, str]) -> str:
    """A commented file of wishes.

    Args:
        said: name, kind, motors, packs, propellers, servos, boards, board_mass, span_most,
            mass_most, wind, level as typed; empty where nothing was said. [-]

    Returns:
        TOML, read back and found right. [-]

    Raises:
        DesignErrors: An answer cannot be used.

    Source:
        Definition.

    Example:
        >>> text = wishes_text({"motors": "outrunner 22 mm 1000 Kv", "packs": "3 x 1300 mAh"})
        >>> text.splitlines()[0]
        '# What is at hand, and what it should become; docs/use/idea.md lists every key.'
    """
    packs = [_pack(piece) for piece in said.get("packs", "").split(",") if piece.strip()]
    inch = any(mark in said.get("span_most", "") for mark in ("in", "ft", '"'))
    lines = [
        "# What is at hand, and what it should become; docs/use/idea.md lists every key.",
        f"name = {_text(said.get('name') or 'Proposal')}",
        f'units = "{"inch" if inch else "metric"}"',
        "",
        "[board]",
        *_line("mass", said.get("board_mass", ""), "one whole sheet, weighed"),
        f"count = {said.get('boards') or 4}",
        "",
        "[field]",
        *_line("wind", said.get("wind", ""), "the usual one"),
        "",
        "[pilot]",
        f"level = {_text(said.get('level') or 'beginner')}",
        "",
        "[bench]",
        f"motors = {_listed(said.get('motors', ''))}",
        f"propellers = {_listed(said.get('propellers', ''))}  # none: all on sale",
        f"servo_count = {said.get('servos') or 4}",
        *(line for pack in packs for line in ("", "[[bench.pack]]", *pack)),
        "",
        "[wish]",
        f"kind = {_text(said.get('kind') or 'trainer')}",
        *_line("span_most", said.get("span_most", ""), "fits the car"),
        *_line("mass_most", said.get("mass_most", ""), "ready to fly"),
        'share_least = "50 %"  # of builds that must pass every check',
    ]
    text = "\n".join(lines) + "\n"
    parse_wishes(text)
    return text


def _text(words: str) -> str:
    escaped = words.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _listed(words: str) -> str:
    names = [piece.strip() for piece in words.split(",") if piece.strip()]
    return f"[{', '.join(_text(name) for name in names)}]"


def _line(key: str, said: str, words: str) -> list[str]:
    return [f"{key} = {_text(said.strip())}  # {words}"] if said.strip() else []


def _pack(piece: str) -> tuple[str, str]:
    found = PACK.match(piece)
    if found is None:
        words = 'a pack is written as cells x capacity, such as "3 x 1300 mAh"'
        raise DesignErrors([DesignError("packs", f'"{piece.strip()}"', words)])
    return f"cells = {found[1]}", f'capacity = "{found[2].strip()}"'
