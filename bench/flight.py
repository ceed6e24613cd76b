"""How long flight in time takes: throws, their cost as they grow, one live step, and set-up.

python bench/flight.py [examples/brindle-cob.toml]
"""

import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

import foamwright
from foamwright.flight.simulation.advance import advance
from foamwright.flight.simulation.build_craft import build_craft
from foamwright.flight.simulation.hands import Hands
from foamwright.flight.simulation.state import start_state
from foamwright.flight.simulation.thrower import BuildSpread, builds_of, thrower_for
from foamwright.flight.simulation.throws import Launch, throw
from foamwright.flight.simulation.trim import steady_flight

EXAMPLE = Path(__file__).resolve().parents[1] / "examples" / "brindle-cob.toml"
ALLOWED = 5.0  # s, a thousand throws of six seconds on two cores
RATE = 200  # steps a second of the live view


def timed(action: Callable[[], Any], times: int = 1) -> tuple[float, Any]:
    """Least time of a few tries, and what the last gave."""
    best, found = float("inf"), None
    for _ in range(times):
        start = time.perf_counter()
        found = action()
        best = min(best, time.perf_counter() - start)
    return best, found


def main(file: Path) -> None:
    """Print every timing with what it is to stay under."""
    plane = foamwright.load(file)
    rooms = plane.rooms
    spent, craft = timed(lambda: build_craft(rooms), 3)
    print(f"set-up of {craft.name} ({craft.strip_count} strips): {1e3 * spent:.0f} ms")
    launch = Launch(thrower_for(plane.balance.all_up_mass), Hands(), throttle=0.7, wind=2.0)
    for count in (250, 500, 1000, 2000, 4000):
        builds = plane.flawed(builds_of(BuildSpread(), count, 1))
        for workers in (1, 2):
            start = time.process_time()
            spent, thrown = timed(
                lambda w=workers, b=builds: throw(b, launch, b.count, 1, workers=w)
            )
            cpu = time.process_time() - start
            airborne = float(thrown.ended.sum())
            print(
                f"{count} throws of 6 s, {workers} process{'es' if workers > 1 else ''}: "
                f"{spent:.2f} s, {1e3 * spent / count:.2f} ms a throw, "
                f"{airborne / spent:.0f} s flown a second"
                + (f", {cpu:.2f} s of processor" if workers == 1 else "")
                + (f" (allowed {ALLOWED:.0f} s)" if count == 1000 and workers == 2 else "")
            )
    state = start_state(craft.strip_count, speed=9.0, height=20.0, throttle=0.5)
    sticks, calm = np.array([0.5, 0.0, 0.0, 0.0]), np.zeros(3)

    def second() -> None:
        now = state
        for _ in range(RATE):
            now = advance(craft, now, sticks, calm, step=1.0 / RATE)

    start = time.process_time()
    spent, _ = timed(second, 3)
    cpu = (time.process_time() - start) / 3
    print(
        f"live: one step at {RATE} Hz {1e3 * spent / RATE:.2f} ms, of the processor "
        f"{1e3 * cpu / RATE:.2f} ms, {100.0 * cpu:.0f} % of a core (allowed 2 ms and 50 %)"
    )
    spent, _ = timed(lambda: steady_flight(craft, np.linspace(7.0, 14.0, 20), throttle=None), 3)
    print(f"20 steady states: {1e3 * spent:.0f} ms")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else EXAMPLE)
