"""Benches and wishes that the tests of the search use."""

from pathlib import Path

from foamwright.idea.problem import Case
from foamwright.idea.reading import read_wishes

WISHES = Path(__file__).resolve().parents[1] / "examples" / "wishes"


def case_of(name: str, *, share: float = 0.2, **wish: object) -> Case:
    """One of the example benches, some wishes changed."""
    wishes = read_wishes(WISHES / f"{name}.toml").wishes
    changed = wishes.wish.model_copy(update={"share_least": share, **wish})
    return Case(wishes.model_copy(update={"wish": changed}))
