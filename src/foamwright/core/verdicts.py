"""What a check says: verdict, margin, reason and computed changes."""

from dataclasses import dataclass, field
from enum import StrEnum


class Verdict(StrEnum):
    """The four answers of a check."""

    HOLDS = "holds"
    CLOSE = "close"
    FAILS = "fails"
    CANNOT_SAY = "cannot say"


GRAVEST_FIRST = (Verdict.FAILS, Verdict.CLOSE, Verdict.CANNOT_SAY, Verdict.HOLDS)


@dataclass(frozen=True, slots=True)
class Change:
    """A solved change of the design that mends a check, re-checked before it is shown.

    Attributes:
        values: Dotted design key -> new value, SI (or text for a choice).
        words: The change in the builder's words and units.
        margin: Margin of the mended check after the change. [-]
        mass_change: Change of all-up mass. [kg]
        worsened: Ids of other checks whose verdict gets worse, empty when all still hold.
    """

    values: dict[str, float | str]
    words: str
    margin: float
    mass_change: float
    worsened: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Check:
    """One finding about the plane.

    Attributes:
        id: Short stable name, such as "static_margin".
        title: The same in trade words.
        verdict: holds / close / fails / cannot say.
        value: The computed value, SI; None when it cannot be said.
        unit: SI unit of value, low and high, such as "m", "kg", "-".
        low: Lower limit, SI; None when there is none.
        high: Upper limit, SI; None when there is none.
        margin: Positive is good; distance to the nearest limit as a fraction. None = cannot say.
        why: One sentence with numbers.
        source: Publication, or "common practice".
        place: Where on the plane it speaks of, such as "stab" or "wing centre joint".
        changes: Solved changes for a failing or close check.
    """

    id: str
    title: str
    verdict: Verdict
    value: float | None
    unit: str
    low: float | None
    high: float | None
    margin: float | None
    why: str
    source: str
    place: str
    changes: tuple[Change, ...] = field(default=())
