"""Design keys by names for people."""

from __future__ import annotations

from foamwright.design.keys import split

ORDER = ("first", "second", "third", "fourth", "fifth", "sixth")
# Where the words of the key itself do not say it.
TITLES = {
    "learned.mass": "mass beyond the parts list",
    "learned.cg": "CG aft of where it was computed",
    "learned.drag": "drag over what was computed",
    "learned.thrust": "thrust over what was computed",
    "learned.current": "current over what was computed",
    "pilot.throw_speed": "speed of the throw",
    "board.mass": "mass of one whole sheet",
}


def key_title(key: str) -> str:
    """A design key for people.

    Args:
        key: Dotted. [-]

    Returns:
        Words.

    Source:
        Definition.

    Example:
        >>> key_title("wing.panel.0.span"), key_title("pack.position")
        ('span of the first wing panel', 'position of the pack')
    """
    if key in TITLES:
        return TITLES[key]
    *owners, last = split(key)
    words: list[str] = []
    place = ""
    for part in owners:
        if isinstance(part, int):
            place = ORDER[part] if part < len(ORDER) else f"{part + 1}th"
        else:
            words.append(part.replace("_", " "))
    named = str(last).replace("_", " ")
    if not words:
        return named
    return f"{named} of the {' '.join(filter(None, [place, *words]))}"
