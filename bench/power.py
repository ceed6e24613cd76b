"""Time the power room. Printed, not gated.

    python bench/power.py [DESIGN] [--runs N]

One core. A map is thrust, amps, rpm and power over 30 airspeeds and 20 throttles; a ranking tries
sixty propellers on one plane, static bands, climb, top speed, level flight and endurance each.
"""

import argparse
import os
import statistics
import time
from collections.abc import Callable

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ["FOAMWRIGHT_CACHE"] = "off"

import numpy as np

from foamwright.flight.candidates import motor_options, pack_options, propeller_options, seat_of
from foamwright.flight.choice import Option, rank_options
from foamwright.flight.mission import fly_mission
from foamwright.opening import load
from foamwright.power.analyse import analyse
from foamwright.power.bench import learn_from_bench
from foamwright.power.operate import power_map
from foamwright.power.reading import Reading

DESIGN = "examples/brindle-cob.toml"
MANY = 60


def show(what: str, task: Callable[[], object], runs: int, goal: str = "") -> None:
    """Run a task a number of times and print its median and best."""
    task()
    times: list[float] = []
    for _ in range(runs):
        begin = time.perf_counter()
        task()
        times.append(1e3 * (time.perf_counter() - begin))
    print(f"{what:<48}{statistics.median(times):8.1f} ms  best {min(times):7.1f}  {goal}")


def main() -> None:
    """Time everything."""
    parser = argparse.ArgumentParser(description="Time the power room.")
    parser.add_argument("design", nargs="?", default=DESIGN)
    parser.add_argument("--runs", type=int, default=9)
    given = parser.parse_args()
    plane = load(given.design)
    train, mass, density = plane.train, plane.balance.all_up_mass, plane.air.density
    aero = plane.aero
    speeds, throttles = np.linspace(0.0, 25.0, 30), np.linspace(0.05, 1.0, 20)
    readings = [Reading(11.2, 12.0, 850.0, 6.0, rest_voltage=12.5)]
    propellers = propeller_options(train, mass)[:MANY]
    seat = seat_of(plane.balance, plane.design.pack.position)
    packs = pack_options(train, mass, seat=seat)
    motors = motor_options(train, mass, motors=plane.stock.motors, seat=seat)

    def rank(options: tuple[Option, ...]) -> object:
        return rank_options(options, aero, mass=mass, density=density)

    show(
        "map, 30 airspeeds x 20 throttles",
        lambda: power_map(train, speeds, throttles, density=density),
        given.runs,
        "goal 20",
    )
    show(f"ranking {len(propellers)} propellers", lambda: rank(propellers), given.runs, "goal 1000")
    show(f"ranking {len(packs)} packs", lambda: rank(packs), given.runs)
    show(f"ranking {len(motors)} motors with propellers", lambda: rank(motors), 3)
    show("at rest with bands", lambda: analyse(train, density=density), given.runs)
    show("a flight by legs", lambda: fly_mission(aero, train, mass, density=density), given.runs)
    show("learning from a bench reading",
         lambda: learn_from_bench(train, readings, density=density), 3)  # fmt: skip


if __name__ == "__main__":
    main()
