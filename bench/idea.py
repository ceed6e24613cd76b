"""Compare the best proposal with a plane laid out by the trade's ratios, and time the search.

    python bench/idea.py [--seconds 60] [--jobs N] [--only NAME]   five scenarios, a table
    python bench/idea.py --speed                                  planes a second, 1 and 2 cores

Both planes have the same motor, controller, propeller, pack and servos; the search may use no more
boards than the trade's plane needs. The plane by the trade: aspect ratio 6 (small 5, glider 8),
fuselage 72 % of the span, nose 15 % of it, stab 21 % of the wing, fin a third of the stab, balance
point at 28 % of the mean chord, doubled spar at 27 % of the chord with a stick over the centre
third; common practice, no source.
"""

import argparse
import os
import time
from pathlib import Path

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")

from foamwright.checks.builds import builds_of
from foamwright.idea.launch import launch_share
from foamwright.idea.outcome import Plan, find_ideas
from foamwright.idea.problem import Case, problem_of
from foamwright.idea.reading import read_wishes
from foamwright.idea.score import figures_of
from foamwright.idea.search import search
from foamwright.idea.state import State
from foamwright.idea.trade import trade_plane, trade_values
from foamwright.idea.workers import crew_of
from foamwright.plane import Plane

ROOT = Path(__file__).resolve().parents[1]
SCENARIOS = ("ostermyr", "cobb-hollow", "lindmere", "farrow-down", "pell-wharf")
ASPECT = {"small flyer": 5.0, "glider": 8.0}
MEASURES = {  # name -> (words, larger is better)
    "stall_speed": ("stall, m/s", False),
    "share": ("builds that pass", True),
    "boards": ("boards", False),
    "endurance": ("flying time, s", True),
    "launch": ("launches that fly", True),
}
BUILDS = 1000
GENERATIONS = 6  # of the timing
WIN, LOSS = 0.005, 0.05  # shares from which a figure counts as better, and as lost


def measured(plane: Plane) -> dict[str, float]:
    """The five figures of a plane."""
    figures = figures_of(plane)
    return {
        "stall_speed": figures["stall_speed"],
        "share": builds_of(plane, count=BUILDS, seed=2).all_pass,
        "boards": figures["boards"],
        "endurance": figures["endurance"],
        "launch": launch_share(plane) or 0.0,
    }


def gains(found: dict[str, float], trade: dict[str, float]) -> dict[str, float]:
    """Relative gain of each figure, positive is better."""
    return {
        name: (found[name] - trade[name]) / max(abs(trade[name]), 1e-3) * (1 if larger else -1)
        for name, (_, larger) in MEASURES.items()
    }


def compare(name: str, seconds: float, jobs: int | None) -> bool:
    """One scenario: search, compare, print; whether the goal is met."""
    wished = read_wishes(ROOT / "examples" / "wishes" / f"{name}.toml")
    wishes = wished.wishes
    problem = problem_of(Case(wishes))
    aspect = ASPECT.get(wishes.wish.kind, 6.0)
    trade = measured(trade_plane(problem, trade_values(problem, aspect=aspect)))
    boards = min(int(trade["boards"]), wishes.board.count)
    wish = wishes.wish.model_copy(update={"boards_most": boards})
    case = Case(wishes.model_copy(update={"wish": wish}))
    outcome = find_ideas(case, Plan(seconds=seconds, jobs=jobs))
    print(f"\n{name}: {outcome.evaluations} planes in {outcome.elapsed:.0f} s", flush=True)
    if not outcome.proposals:
        print(f"  nothing passes: {outcome.collision.words if outcome.collision else ''}")
        return False
    rows = [(p.letter, found := measured(p.plane), gains(found, trade)) for p in outcome.proposals]
    best = max(rows, key=lambda row: (min(row[2].values()) >= -LOSS, wins(row[2]), row[1]["share"]))
    print(f"  {'':<20}{'by the trade':>14}" + "".join(f"{letter:>10}" for letter, _, _ in rows))
    for key, (words, _) in MEASURES.items():
        cells = "".join(f"{found[key]:>10.4g}" for _, found, _ in rows)
        print(f"  {words:<20}{trade[key]:>14.4g}{cells}")
    met = min(best[2].values()) >= -LOSS and wins(best[2]) >= 3
    told = ", ".join(f"{words} {100 * best[2][key]:+.0f} %" for key, (words, _) in MEASURES.items())
    print(
        f"  best {best[0]}: {wins(best[2])} won; {told}: {'met' if met else 'NOT MET'}", flush=True
    )
    return met


def wins(gained: dict[str, float]) -> int:
    """Figures that are better."""
    return sum(gain > WIN for gain in gained.values())


def speed() -> None:
    """Planes a second of whole generations, builds drawn too, on one core and on two."""
    case = Case(read_wishes(ROOT / "examples" / "wishes" / "ostermyr.toml").wishes)
    rates = []
    for jobs in (1, 2):
        with crew_of(case, jobs=jobs) as crew:
            state = State(seed=5)
            search(case, crew, state=state, generations=0, seconds=600.0)  # warm
            before, begin = state.evaluations, time.perf_counter()
            search(case, crew, state=state, generations=GENERATIONS, seconds=600.0)
            spent = time.perf_counter() - begin
        rates.append((state.evaluations - before) / spent)
        print(f"{jobs} core(s): {rates[-1]:.1f} planes a second", flush=True)
    gain = rates[1] / rates[0]
    print(f"two cores give {gain:.2f} times one: {50 * gain:.0f} % of ideal")


def main() -> None:
    """Read the words and run."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--jobs", type=int)
    parser.add_argument("--only", choices=SCENARIOS)
    parser.add_argument("--speed", action="store_true")
    asked = parser.parse_args()
    if asked.speed:
        speed()
        return
    names = [asked.only] if asked.only else SCENARIOS
    met = [compare(name, asked.seconds, asked.jobs) for name in names]
    print(f"\n{sum(met)} of {len(met)} met")


if __name__ == "__main__":
    main()
