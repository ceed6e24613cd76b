"""The right names nearest to a wrong one."""

from collections.abc import Iterable


def nearest_names(
    word: str, names: Iterable[str], *, most: int = 3, cutoff: float = 0.4
) -> list[str]:
    """Names that look like a word, best first.

    Args:
        word: As the builder wrote it. [-]
        names: What there is. [-]
        most: How many at the most. [-]
        cutoff: How alike they must be, 0 to 1. [-]

    Returns:
        The names; empty when nothing is near. [-]

    Source:
        Ratcliff and Obershelp's matching, from Python's difflib.

    Example:
        >>> nearest_names("lenght", ["length", "width"])
        ['length']
    """
    import difflib  # only a mistake needs it, and a good file is read a hundred times more often

    return difflib.get_close_matches(word, list(names), n=most, cutoff=cutoff)
