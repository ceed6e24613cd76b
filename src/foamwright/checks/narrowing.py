"""Which single weighing or measurement would settle most, computed from the builds themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

if TYPE_CHECKING:
    from foamwright.checks.built import Doubts

type Array = NDArray[np.float64]

SLICES = 20  # of a figure's range, with as many builds in each
SURE = 0.005  # share of builds on the other side below which a check is taken as settled

STRIP = "bend a strip of board until it creases (docs/use/stock.md, test 3)"
BENCH = "run the motor on the bench with a wattmeter and a scale (foamwright bench)"
DONE_BY = {
    "figure.board.paper_compressive_strength": STRIP,
    "figure.board.paper_thickness": STRIP,
    "figure.board.thickness": "measure the thickness of ten pieces in a stack",
    "figure.board.paper_modulus": "measure how far a strip sags under 100 g (test 4)",
}


@dataclass(frozen=True, slots=True)
class Narrowing:
    """What one measurement would do.

    Attributes:
        words: What to do, in words.
        verdicts: Part of all doubt about passing and failing that it takes away. [-]
        mass: Part by which the spread of the mass narrows. [-]
        cg: Part by which the spread of the balance point narrows. [-]
        settles: Ids of checks whose doubt falls by a tenth or more, the most first.
    """

    words: str
    verdicts: float
    mass: float
    cg: float
    settles: tuple[str, ...]


def narrowings(doubts: Doubts, passes: Mapping[str, NDArray[np.bool_]]) -> tuple[Narrowing, ...]:
    """How much each measurement narrows the answer, the best first.

    Doubt of a check: p (1 - p). With a figure known the mean doubt within slices of that figure is
    left; the difference is what knowing it takes away. Spread of mass and balance: sqrt(1 - r²),
    r the correlation with the figure.

    Args:
        doubts: What was drawn. [-]
        passes: Check id -> whether each build passes. [-]

    Returns:
        One for each thing to measure that changes anything.

    Source:
        First-order sensitivity by slices, law of total variance; JCGM 101 supplement (from memory).

    Example:
        >>> narrowings(doubts, passes)[0].words  # doctest: +SKIP
        'weigh the motor'
    """
    names = [
        name
        for name in doubts.rows
        if not name.startswith(("model.", "formula.")) and doubts.open.get(name, True)
    ]
    draws = doubts.draws[[doubts.rows[name] for name in names]]
    checks = [name for name, ok in passes.items() if SURE < float(np.mean(ok)) < 1.0 - SURE]
    table = np.array([passes[name] for name in checks], dtype=float)
    doubt = table.mean(axis=1) * (1.0 - table.mean(axis=1)) if checks else np.zeros(0)
    known = _taken_away(draws, table) if checks else np.zeros((len(names), 0))
    mass, cg = doubts.masses[0], doubts.masses[1] / doubts.masses[0]
    on_mass, on_cg = (_correlation(draws, values) ** 2 for values in (mass, cg))
    rows: dict[str, list[int]] = {}
    for row, name in enumerate(names):
        rows.setdefault(_to_do(name), []).append(row)
    total = float(doubt.sum()) or 1.0
    found: list[Narrowing] = []
    for words, members in rows.items():
        gains = np.minimum(known[members].sum(axis=0), doubt)
        order = np.argsort(-gains)
        found.append(
            Narrowing(
                words=words,
                verdicts=float(gains.sum()) / total,
                mass=1.0 - float(np.sqrt(max(1.0 - on_mass[members].sum(), 0.0))),
                cg=1.0 - float(np.sqrt(max(1.0 - on_cg[members].sum(), 0.0))),
                settles=tuple(checks[k] for k in order if gains[k] >= 0.1 * doubt[k]),
            )
        )
    worth = [each for each in found if max(each.verdicts, each.mass, each.cg) >= 0.01]
    return tuple(sorted(worth, key=lambda each: (-round(each.verdicts, 3), -each.cg - each.mass)))


def _taken_away(draws: Array, table: Array) -> Array:
    """Variance between slices of each figure (figures, checks), less what chance makes of it."""
    builds = table.shape[1]
    size = builds // SLICES
    order = np.argsort(draws, axis=1)[:, : size * SLICES]
    sliced = table[:, order].reshape(len(table), len(draws), SLICES, size)
    means = sliced.mean(axis=3)
    between = means.var(axis=2).T
    chance = (table.var(axis=1) * (SLICES - 1) / (size * SLICES))[None, :]
    # Three times the scatter of that chance itself: smaller gains are not told from none.
    gain = between - chance
    return np.where(gain > 3.0 * chance * np.sqrt(2.0 / (SLICES - 1)), gain, 0.0)


def _correlation(draws: Array, values: Array) -> Array:
    spread = float(values.std())
    if spread <= 0.0:
        return np.zeros(len(draws))
    centred = (values - values.mean()) / spread
    return (draws @ centred) / (values.size * np.maximum(draws.std(axis=1), 1e-12))


def _to_do(name: str) -> str:
    """What a builder does to learn a figure."""
    if name in DONE_BY:
        return DONE_BY[name]
    kind, _, rest = name.partition(".")
    if kind == "power":
        return BENCH
    if kind == "mass":
        return _weigh(rest)
    thing, _, figure = rest.partition(".")
    owner, _, figure = figure.rpartition(".") if "." in figure else ("", "", figure)
    return f"test the {figure.replace('_', ' ')} of the {owner or thing}"


def _weigh(thing: str) -> str:
    if "board" in thing:
        return "weigh a sheet of board"
    if "glue" in thing:
        return "weigh the glue stick before and after"
    return f"weigh the {thing.replace('-', ' ')}"
