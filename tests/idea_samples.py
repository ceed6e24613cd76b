"""Benches and wishes that the tests of the search use."""

from pathlib import Path

from foamwright.idea.problem import Case
from foamwright.idea.reading import read_wishes

WISHES = Path(__file__).resolve().parents[1] / "examples" / "wishes"

# A plane of the bench ostermyr that passes, once found by the search and rounded.
PASSES = {
    "washout": 0.036,
    "incidence": 0.035,
    "stab_share": 0.21,
    "fin_share": 0.07,
    "length_share": 0.79,
    "nose_share": 0.141,
    "pack_share": 0.287,
    "roll": 0.744,
    "height": 0.083,
    "layers": 1,
    "down_thrust": 0.059,
    "right_thrust": 0.014,
    "stick_share": 0.9,
    "brace_share": 0.22,
    "firewall": "birch ply 5/32 in",
}


def case_of(name: str, *, share: float = 0.2, **wish: object) -> Case:
    """One of the example benches, some wishes changed."""
    wishes = read_wishes(WISHES / f"{name}.toml").wishes
    changed = wishes.wish.model_copy(update={"share_least": share, **wish})
    return Case(wishes.model_copy(update={"wish": changed}))
