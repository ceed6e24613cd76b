"""The time plan: steps laid into the builder's free hours."""

import re
from collections.abc import Sequence

from foamwright.book.model import Booking, Session, Step, TimePlan
from foamwright.book.order import ordered, ways_behind
from foamwright.core.errors import DesignError
from foamwright.core.units import UnitError, parse

SPLIT = 1200.0  # s, a step may be broken off after so long at it; assumed
USUAL = ", ".join(f"evening {number}: 2 h" for number in range(1, 7))  # common practice
NIGHT = 10 * 3600.0  # s between two sessions of different names; assumed
BREAK = 1800.0  # s between two sessions of one name; assumed
MOST = 60  # sessions added at most
FORM = re.compile(r"^\s*(?:(?P<name>[^:,]*?[^\d\s:,][^:,]*?)\s*:?\s+)?(?P<time>[\d.]+\s*\w+)\s*$")


def free_hours(words: str) -> tuple[Session, ...]:
    """Free hours as a builder says them.

    Args:
        words: Such as "Fri 2 h, Sat 5 h, Sun 3 h". [-]

    Returns:
        Sessions. [-]

    Raises:
        DesignError: It cannot be read.

    Source:
        Definition.

    Example:
        >>> [(s.name, s.duration) for s in free_hours("Fri 2 h, Sat 90 min")]
        [('Fri', 7200.0), ('Sat', 5400.0)]
    """
    sessions: list[Session] = []
    for number, piece in enumerate(words.split(",")):
        found = FORM.match(piece)
        allowed = "free hours are written as in 'Fri 2 h, Sat 5 h'"
        if found is None:
            raise DesignError("hours", f'"{piece.strip()}"', allowed)
        try:
            duration = parse(found["time"], "time")
        except UnitError as error:
            raise DesignError("hours", f'"{piece.strip()}"', allowed, error.fix) from None
        if not 300.0 <= duration <= 86400.0:
            raise DesignError("hours", f'"{piece.strip()}"', "a session lasts 5 min to 24 h")
        sessions.append(Session(found["name"] or f"session {number + 1}", duration))
    return tuple(sessions)


def plan_time(steps: Sequence[Step], sessions: Sequence[Session]) -> TimePlan:
    """Lay steps into sessions; glue sets meanwhile, and overnight between days.

    One pair of hands. Of the steps that may be begun the one with the longest way behind it goes
    first; when none may, the builder waits. A step longer than what is left of a session is broken
    off if at least 20 min of it get done, and goes on in the next one.

    Args:
        steps: In any order. [-]
        sessions: Free hours; the last is repeated when they do not suffice. [-]

    Returns:
        The plan. [-]

    Raises:
        ModelError: Steps need each other in a ring.

    Source:
        List scheduling with critical-path priority, common practice.

    Example:
        >>> plan = plan_time([Step("cut", "", hands=1800.0)], free_hours("Fri 2 h"))
        >>> plan.bookings[0].end
        1800.0
    """
    behind = ways_behind(steps)
    left = {step.id: step.hands for step in ordered(steps)}
    by_id = {step.id: step for step in steps}
    usable: dict[str, float] = {}  # step id -> moment from which it may be handled
    given, all_sessions = len(sessions), list(sessions)
    bookings: list[Booking] = []
    opening, index = 0.0, 0
    while left and index < given + MOST:
        if index == len(all_sessions):
            all_sessions.append(all_sessions[-1])
        now, closing = opening, opening + all_sessions[index].duration
        while left:
            free = [by_id[i] for i in left if all(n in usable for n in by_id[i].needs)]
            chosen, begin = _next(free, usable, now, behind)
            room = closing - begin
            work = left[chosen.id]
            if room < min(work, SPLIT) - 1e-6:
                others = [s for s in free if left[s.id] <= closing - _from(s, usable, now) + 1e-6]
                if not others:
                    break
                chosen, begin = _next(others, usable, now, behind)
                work = left[chosen.id]
            done = min(work, closing - begin)
            now = begin + done
            split = done < work - 1e-6
            bookings.append(Booking(chosen.id, index, begin - opening, now - opening, split))
            if split:
                left[chosen.id] = work - done
                break
            del left[chosen.id]
            usable[chosen.id] = now + chosen.wait
        same = (
            index + 1 < len(all_sessions)
            and all_sessions[index + 1].name == all_sessions[index].name
        )
        opening = closing + (BREAK if same and index + 1 < given else NIGHT)
        index += 1
    return TimePlan(tuple(all_sessions[:index]), tuple(bookings), given)


def _from(step: Step, usable: dict[str, float], now: float) -> float:
    return max([now, *(usable[need] for need in step.needs)])


def _next(
    free: Sequence[Step], usable: dict[str, float], now: float, behind: dict[str, float]
) -> tuple[Step, float]:
    """The step to take up and when: one that may be begun now, else the first that may."""
    begin = min(_from(step, usable, now) for step in free)
    ready = [step for step in free if _from(step, usable, now) <= begin + 1e-6]
    chosen = max(ready, key=lambda step: behind[step.id])
    return chosen, begin
