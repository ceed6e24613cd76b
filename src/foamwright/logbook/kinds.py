"""Kinds of entries: their keys, what each key's value is, and how words become SI."""

from collections.abc import Mapping

from foamwright.core.errors import DesignError
from foamwright.core.units import UnitError, parse
from foamwright.flight.observations import OBSERVATIONS

TEXT = ""  # a key whose value is words
ANSWERS = {item.key: item.answers for item in OBSERVATIONS}
# What is measured -> its dimension; throws may be lengths at the edge or angles.
MEASURED = {
    "cg": "length",
    "pack position": "length",
    "twist right": "angle",
    "twist left": "angle",
    "tip height right": "length",
    "tip height left": "length",
    "down thrust": "angle",
    "right thrust": "angle",
    "wing incidence": "angle",
    **{
        f"throw {name} {way}": "throw" for name in ("aileron", "elevator") for way in ("up", "down")
    },
    **{f"throw rudder {way}": "throw" for way in ("left", "right")},
}
KEYS: dict[str, dict[str, str]] = {
    "weighed": {"what": TEXT, "mass": "mass", "note": TEXT},
    "measured": {"what": TEXT, "value": "measured", "note": TEXT},
    "flight": {
        "wind": "speed",
        "temperature": "temperature",
        "altitude": "length",
        "minutes": "minutes",
        "back": "charge",
        "throttle": "fraction",
        "trim_elevator": "angle",
        "trim_aileron": "angle",
        "trim_rudder": "angle",
        "glide_height": "length",
        "glide_distance": "length",
        **dict.fromkeys(ANSWERS, "tick"),
        "note": TEXT,
    },
    "heard": {
        **dict.fromkeys(("airspeed", "ground_speed", "spread", "wind"), "speed"),
        "throttle": "fraction",
        "note": TEXT,
    },
    "repair": {"what": TEXT, "mass": "mass", "place": "length", "note": TEXT},
    "note": {"note": TEXT},
}  # fmt: skip
NEEDED = {
    "weighed": ("what", "mass"),
    "measured": ("what", "value"),
    "flight": (),
    "heard": ("spread",),
    "repair": ("what",),
    "note": ("note",),
}
MINUTE = 60.0  # s
LONGEST = 400  # letters of a note


def value_of(kind: str, said: Mapping[str, str], key: str) -> float | None:
    """SI value of one thing said.

    Args:
        kind: Of the entry. [-]
        said: All that the entry says. [-]
        key: Which. [-]

    Returns:
        The value; None for words. [any]

    Raises:
        DesignError: A key that the kind does not have, or a value that cannot be read.

    Source:
        Definition.

    Example:
        >>> value_of("weighed", {"what": "wing", "mass": "212 g"}, "mass")
        0.212
    """
    keys = KEYS[kind]
    words = said[key]
    if key not in keys:
        raise DesignError(
            f"{kind}.{key}", f'"{words}"', f"the keys of '{kind}' are {', '.join(keys)}"
        )
    dimension = keys[key]
    if dimension == TEXT:
        _text(kind, key, words)
        return None
    if dimension == "tick":
        if words not in ANSWERS[key]:
            raise DesignError(
                f"{kind}.{key}", f'"{words}"', f"the answers are {', '.join(ANSWERS[key])}"
            )
        return None
    if dimension == "minutes":
        return _minutes(f"{kind}.{key}", words)
    if dimension == "measured":
        dimension = _measured(said.get("what", ""))
    if dimension == "throw":
        dimension = "angle" if _is_angle(words) else "length"
    return _read(f"{kind}.{key}", words, dimension)


def _text(kind: str, key: str, words: str) -> None:
    if kind == "measured" and key == "what":
        _measured(words)
    if not words.strip() or len(words) > LONGEST:
        raise DesignError(f"{kind}.{key}", f"{len(words)} letters", f"it has 1 to {LONGEST}")


def _measured(what: str) -> str:
    if what not in MEASURED:
        raise DesignError("measured.what", f'"{what}"', f"it is one of {', '.join(MEASURED)}")
    return MEASURED[what]


def _is_angle(words: str) -> bool:
    try:
        parse(words, "angle")
    except UnitError:
        return False
    return True


def _minutes(where: str, words: str) -> float:
    """Minutes as a bare number, or a time with its unit."""
    try:
        return float(words) * MINUTE
    except ValueError:
        return _read(where, words, "time")


def _read(where: str, words: str, dimension: str) -> float:
    try:
        return parse(words, dimension)
    except UnitError as error:
        raise DesignError(where, error.got, error.allowed, error.fix) from None
