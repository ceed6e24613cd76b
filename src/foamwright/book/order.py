"""Order of the steps and the longest chain, from what needs what."""

from collections.abc import Sequence

from foamwright.book.model import Chain, Step
from foamwright.core.errors import ModelError


def ordered(steps: Sequence[Step]) -> tuple[Step, ...]:
    """Steps in an order in which each comes after what it needs.

    Of the steps that may be begun, the one with the longest way still behind it comes first, so
    that glue sets while hands are busy elsewhere.

    Args:
        steps: In any order. [-]

    Returns:
        The same steps, ordered. [-]

    Raises:
        ModelError: A step needs one that is not there, or steps need each other in a ring.

    Source:
        Topological order with critical-path priority, common practice in scheduling.

    Example:
        >>> [s.id for s in ordered([Step("join", "", needs=("cut",)), Step("cut", "")])]
        ['cut', 'join']
    """
    by_id = {step.id: step for step in steps}
    for step in steps:
        for need in step.needs:
            if need not in by_id:
                raise ModelError(f"The step '{step.id}' needs '{need}', which is no step.")
    behind = ways_behind(steps)
    done: list[Step] = []
    names: set[str] = set()
    while len(done) < len(steps):
        free = [s for s in steps if s.id not in names and all(n in names for n in s.needs)]
        if not free:
            rest = ", ".join(sorted(set(by_id) - names))
            raise ModelError(f"These steps need each other in a ring: {rest}.")
        step = max(free, key=lambda s: behind[s.id])
        done.append(step)
        names.add(step.id)
    return tuple(done)


def ways_behind(steps: Sequence[Step]) -> dict[str, float]:
    """Time from the start of each step to the end of the longest chain that hangs on it.

    Args:
        steps: In any order. [-]

    Returns:
        Step id -> time. [s]

    Raises:
        ModelError: Steps need each other in a ring.

    Source:
        Critical path method.

    Example:
        >>> ways_behind([Step("a", "", hands=5.0), Step("b", "", needs=("a",), hands=2.0)])
        {'b': 2.0, 'a': 7.0}
    """
    after: dict[str, list[Step]] = {step.id: [] for step in steps}
    for step in steps:
        for need in step.needs:
            after.setdefault(need, []).append(step)
    found: dict[str, float] = {}
    open_steps = list(steps)
    while open_steps:
        ready = [s for s in open_steps if all(f.id in found for f in after[s.id])]
        if not ready:
            rest = ", ".join(sorted(s.id for s in open_steps))
            raise ModelError(f"These steps need each other in a ring: {rest}.")
        for step in ready:
            later = max((found[f.id] for f in after[step.id]), default=0.0)
            found[step.id] = step.hands + step.wait + later
        open_steps = [s for s in open_steps if s.id not in found]
    return found


def longest_chain(steps: Sequence[Step]) -> Chain:
    """The chain of steps that takes longest, work and waiting added up.

    Args:
        steps: In any order. [-]

    Returns:
        Its steps and its time. [-]

    Source:
        Critical path method; a hand-worked case in tests/unit/test_book_order.py.

    Example:
        >>> longest_chain([Step("a", "", hands=5.0), Step("b", "", needs=("a",), hands=2.0)])
        Chain(ids=('a', 'b'), duration=7.0)
    """
    behind = ways_behind(steps)
    if not steps:
        return Chain((), 0.0)
    chain = [max((s for s in steps if not s.needs), key=lambda s: behind[s.id])]
    while after := [s for s in steps if chain[-1].id in s.needs]:
        chain.append(max(after, key=lambda s: behind[s.id]))
    return Chain(tuple(step.id for step in chain), behind[chain[0].id])
