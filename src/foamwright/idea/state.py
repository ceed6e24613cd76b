"""A search as it stands: what was found so far, kept in a file so that it can go on."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from pathlib import Path
from typing import Any

from foamwright.core.errors import DesignError
from foamwright.core.files import read_text, write_atomically
from foamwright.idea.score import Score
from foamwright.idea.task import Drawn, Row

FORM = 1  # of the file


@dataclass(slots=True)
class State:
    """A search as it stands.

    Attributes:
        seed: Same seed, same search.
        generation: Generations done. [-]
        evaluations: Planes computed. [-]
        elapsed: Time spent. [s]
        pools: Rows of each aim, best first.
        scores: Row -> what it is worth.
        drawn: Row -> its builds.
        met: Planes met that pass every check. [-]
    """

    seed: int = 1
    generation: int = 0
    evaluations: int = 0
    elapsed: float = 0.0
    pools: tuple[tuple[Row, ...], ...] = ()
    scores: dict[Row, Score] = field(default_factory=dict[Row, Score])
    drawn: dict[Row, Drawn] = field(default_factory=dict[Row, Drawn])
    met: int = 0


def save_state(state: State, path: Path, *, wishes: str) -> None:
    """Keep a search in a file.

    Args:
        state: The search. [-]
        path: The file; replaced when it is there. [-]
        wishes: Mark of the wishes that it belongs to. [-]

    Raises:
        OutputError: It cannot be written.

    Source:
        Definition.

    Example:
        >>> save_state(State(seed=3), Path("wren.search.json"), wishes="abc")
    """
    body = {
        "form": FORM,
        "wishes": wishes,
        "seed": state.seed,
        "generation": state.generation,
        "evaluations": state.evaluations,
        "elapsed": state.elapsed,
        "met": state.met,
        "pools": state.pools,
        "scores": [asdict(score) for score in state.scores.values()],
        "drawn": [{"row": row, **asdict(many)} for row, many in state.drawn.items()],
    }
    write_atomically(path, json.dumps(body) + "\n", overwrite=True)


def load_state(path: Path, *, wishes: str) -> State:
    """Take up a search from its file.

    Args:
        path: The file. [-]
        wishes: Mark of the wishes it must belong to. [-]

    Returns:
        The search as it stood. [-]

    Raises:
        DesignError: It is no such file, or it belongs to other wishes.

    Source:
        Definition.

    Example:
        >>> save_state(State(seed=3), Path("wren.search.json"), wishes="abc")
        >>> load_state(Path("wren.search.json"), wishes="abc").seed
        3
    """
    text = read_text(path, what="search")
    words = "it must be a search that `foamwright idea` kept"
    fix = "Take the file away to begin anew."
    try:
        body: dict[str, Any] = json.loads(text)
        if body["form"] != FORM:
            raise KeyError("form")
        state = _read(body)
    except (ValueError, KeyError, TypeError) as error:
        raise DesignError("", f"{type(error).__name__} in it", words, fix, str(path)) from None
    if body["wishes"] != wishes:
        got = "a search for other wishes, or over other dimensions"
        raise DesignError("", got, "bench and wishes must be the same to go on", fix, str(path))
    return state


def _read(body: Mapping[str, Any]) -> State:
    scores = [
        Score(
            tuple(entry["shares"]),
            entry["shortfall"],
            entry["checks_shortfall"],
            entry["wishes"],
            entry["margins"],
            entry["figures"],
            entry["pack"],
        )
        for entry in body["scores"]
    ]
    drawn = {
        tuple(entry["row"]): Drawn(entry["share"], entry["spreads"], entry["shares"])
        for entry in body["drawn"]
    }
    return State(
        seed=int(body["seed"]),
        generation=int(body["generation"]),
        evaluations=int(body["evaluations"]),
        elapsed=float(body["elapsed"]),
        pools=tuple(tuple(tuple(row) for row in pool) for pool in body["pools"]),
        scores={score.shares: score for score in scores},
        drawn=drawn,
        met=int(body["met"]),
    )
