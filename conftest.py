"""Names that the examples in docstrings may use, so that they are run and not only read."""

import os
from io import BytesIO
from pathlib import Path
from typing import Any

os.environ["OPENBLAS_NUM_THREADS"] = "1"  # as the command line has it; before numpy comes

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
NAMED = ("parts", "sheets", "book", "checks", "strength", "flight")  # rooms with names of their own


@pytest.fixture(scope="session")
def cob() -> Plane:
    """The trainer that the examples speak of."""
    return foamwright.load(EXAMPLES / "brindle-cob.toml")


@pytest.fixture(scope="session")
def names(cob: Plane) -> dict[str, dict[str, Any]]:
    """What the examples of each room call by name, besides the rooms themselves."""
    from matplotlib.figure import Figure
    from reportlab.pdfgen.canvas import Canvas

    from foamwright.checks.mass import MASS_RULES
    from foamwright.checks.run import verdicts
    from foamwright.checks.shape_levers import pack_lever
    from foamwright.flight.derive import condition_of, lateral_of
    from foamwright.parts.material import board_work
    from foamwright.parts.side_view import side_view
    from foamwright.parts.wing_run import wing_run
    from foamwright.sheets.easel import View
    from foamwright.sheets.gauges import gauges_of
    from foamwright.sheets.paper import paper_of
    from foamwright.sheets.write import heading_of
    from foamwright.strength.cases import one_at_a_time
    from foamwright.strength.failures import wing_of
    from foamwright.strength.named import figures_of

    design, airframe, stock = cob.design, cob.airframe, cob.stock
    lever = pack_lever(cob, forward=True)
    board = board_work(design.board, stock, airframe.board_thickness)
    figures = one_at_a_time(figures_of(design, stock))
    part, placement = cob.parts.parts[0], cob.layout.placements[0]
    rule = MASS_RULES[0]
    run = wing_run(design, airframe, board, stock)
    wing = wing_of(design, airframe, stock, figures=figures, loads=cob.loads)
    pieces = {
        "board": board,
        "run": run,
        "span": run.spans[0],
        "servo": design.servo[0],
        "item": cob.parts.items[0],
        "view": side_view(design, airframe),
        "part": part,
        "placement": placement,
    }
    drawn = {
        "axes": Figure(figsize=(4, 4)).add_axes((0, 0, 1, 1)),
        "view": View(100.0, 100.0, 200.0),
        "shapes": (),
        "parts": cob.parts.parts,
        "panel": airframe.wing.panels[0],
        "heading": heading_of(cob),
        "paper": paper_of("a4"),
        "canvas": Canvas(BytesIO()),
        "gauges": gauges_of(cob),
    }
    return {
        "parts": pieces,
        "sheets": pieces | drawn,
        "book": pieces,
        "checks": {
            "rule": rule,
            "finding": rule.find(cob),
            "checks": verdicts(cob),
            "lever": lever,
            "step": None if lever is None else lever.steps[0],
            "verdicts": verdicts,
        },
        "strength": {
            "figures": figures,
            "f": figures,
            "l": cob.loads,
            "sections": wing.sections,
            "load": wing.load,
            "b": wing.bending,
            "w": wing,
            "section": airframe.wing.panels[0].section,
        },
        "flight": {
            "frame": airframe,
            "wing": airframe.wing,
            "derivatives": cob.aero.derivatives,
            "condition": condition_of(cob.aero, cob.balance, speed=9.0, density=1.225),
            "lateral": lateral_of(cob.aero),
        },
    }


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
    doctest_namespace.clear()  # no names of the room before
    doctest_namespace.update({name: getattr(plane, name) for name in ROOMS}, plane=plane)
    room = request.node.dtest.name.split(".")[1:2]
    if room and room[0] in NAMED:
        doctest_namespace.update(request.getfixturevalue("names")[room[0]])
    if "trial" in request.node.path.parts or request.node.path.name == "fly.py":
        flown = request.getfixturevalue("card")
        doctest_namespace.update(flown=flown, setting=flown.setting, card=told(flown))
    if "foamwright.idea" in request.node.dtest.name:
        doctest_namespace.update(request.getfixturevalue("bench"))
    (tmp_path / "examples").symlink_to(EXAMPLES)
    monkeypatch.chdir(tmp_path)
