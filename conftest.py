"""Names that the examples in docstrings may use, so that they are run and not only read."""

from pathlib import Path
from typing import Any

import pytest

import foamwright
from foamwright import Plane
from foamwright.cli.fly import flown_card
from foamwright.flight.trial.card import told
from foamwright.flight.trial.flown import Flown

EXAMPLES = Path(__file__).resolve().parent / "examples"
ROOMS = (
    "design",
    "stock",
    "airframe",
    "parts",
    "air",
    "balance",
    "lattice",
    "polars",
    "aero",
    "train",
    "power",
    "flight",
    "strength",
    "loads",
    "layout",
)


@pytest.fixture(scope="session")
def cob() -> Plane:
    """The trainer that the examples speak of."""
    return foamwright.load(EXAMPLES / "brindle-cob.toml")


@pytest.fixture(scope="session")
def card(cob: Plane) -> Flown:
    """Its test flight on paper."""
    return flown_card(cob, ())


@pytest.fixture(scope="session")
def bench() -> dict[str, Any]:
    """The bench and wishes that the examples of the search speak of."""
    import numpy as np

    from foamwright.idea.problem import Case, problem_of
    from foamwright.idea.reading import read_wishes
    from foamwright.idea.score import score
    from foamwright.idea.trade import trade_values

    case = Case(read_wishes(EXAMPLES / "wishes" / "cobb-hollow.toml").wishes)
    problem = problem_of(case)
    values = trade_values(problem) | {"length_share": 0.66, "stab_share": 0.17}
    found = score(problem, np.array(problem.shares(values)))
    return {
        "wishes": case.wishes,
        "case": case,
        "problem": problem,
        "values": values,
        "found": found,
    }


@pytest.fixture(autouse=True)
def _names_of_the_examples(
    request: pytest.FixtureRequest,
    doctest_namespace: dict[str, Any],
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    """The plane's rooms by name, in a folder where an example may write."""
    if not hasattr(request.node, "dtest"):
        return
    plane = request.getfixturevalue("cob")
    doctest_namespace.update({name: getattr(plane, name) for name in ROOMS}, plane=plane)
    if "trial" in request.node.path.parts or request.node.path.name == "fly.py":
        flown = request.getfixturevalue("card")
        doctest_namespace.update(flown=flown, setting=flown.setting, card=told(flown))
    if "foamwright.idea" in request.node.dtest.name:
        doctest_namespace.update(request.getfixturevalue("bench"))
    (tmp_path / "examples").symlink_to(EXAMPLES)
    monkeypatch.chdir(tmp_path)
