"""Names that the examples in docstrings may use, so that they are run and not only read."""

from pathlib import Path
from typing import Any

import pytest

import foamwright
from foamwright import Plane

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
    (tmp_path / "examples").symlink_to(EXAMPLES)
    monkeypatch.chdir(tmp_path)
