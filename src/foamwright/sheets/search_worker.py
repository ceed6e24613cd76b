"""The search for a tighter layout, in a process of its own that can be ended at any time.

Reads one job as JSON from standard input and prints every better solution as one line of JSON. All
lengths in millimetres: the scale at which the packing library works best.
"""

import io
import json
import math
import signal
import sys
from importlib import import_module
from types import ModuleType
from typing import Any, Protocol, TextIO


class Solution(Protocol):
    """What is asked of a solution of the packing library."""

    def full(self) -> bool:
        """Say whether every item is placed."""
        ...

    def write(self, stream: TextIO) -> None:
        """Write the solution as JSON."""
        ...


def run_job(job: dict[str, Any], output: TextIO) -> None:
    """Search until the time is up and print each better solution.

    Args:
        job: boards (length, width of each; all but the last once), gap (millimetres),
            time_limit (seconds), items (outline, holes, angles, either, copies). [-]
        output: Where the lines go. [-]

    Source:
        [PACKINGSOLVER] irregular bin packing with left-overs.

    Example:
        >>> run_job(job, sys.stdout)  # doctest: +SKIP
    """
    irregular = import_module("packingsolver.irregular")

    parameters = irregular.OptimizeParameters()
    parameters.time_limit = float(job["time_limit"])
    parameters.optimization_mode = irregular.OptimizationMode.Anytime
    parameters.verbosity_level = 0

    def report(found: Any) -> None:  # noqa: ANN401 -- comes from compiled code without types
        _report(found.solution, output)

    parameters.new_solution_callback = report
    irregular.optimize(_instance(irregular, job), parameters)


def _instance(irregular: ModuleType, job: dict[str, Any]) -> object:
    builder = irregular.InstanceBuilder()
    builder.set_objective(irregular.Objective.BinPackingWithLeftovers)
    parts = sum(item["copies"] for item in job["items"])
    *offcuts, whole = job["boards"]
    for length, width in offcuts:  # filled in this order, before whole boards
        builder.add_bin_type(irregular.build_rectangle(length, width), copies=1)
    builder.add_bin_type(irregular.build_rectangle(*whole), copies=parts)
    builder.set_item_item_minimum_spacing(job["gap"])
    for item in job["items"]:
        shape = irregular.ShapeWithHoles(
            irregular.build_shape(item["outline"]),
            [irregular.build_shape(hole) for hole in item["holes"]],
        )
        faces = (False, True) if item["either"] else (False,)
        angles = [math.degrees(angle) for angle in item["angles"]]
        turns = [(angle, angle, over) for over in faces for angle in angles]
        builder.add_item_type(shape, copies=item["copies"], allowed_rotations=turns)
    return builder.build()


def _report(solution: Solution, output: TextIO) -> None:
    """Write one line: board kinds; item kind, board, angle [rad], face, place of first corner."""
    if not solution.full():
        return
    text = io.StringIO()
    solution.write(text)
    spots: list[list[float]] = []
    boards: list[int] = []
    for used in json.loads(text.getvalue())["bins"]:
        if not used["items"]:
            continue
        for _ in range(int(used.get("copies", 1))):
            for item in used["items"]:
                corner = _first(item["item_shapes"][0]["shape"])
                turn = (math.radians(item["angle"]), int(item["mirror"]))
                spots.append([item["id"], len(boards), *turn, *corner])
            boards.append(used["id"])
    output.write(json.dumps({"boards": boards, "spots": spots}) + "\n")
    output.flush()


def _first(corners: list[dict[str, float]]) -> tuple[float, float]:
    return corners[0]["xs"], corners[0]["ys"]


def main() -> None:
    """Read a job, run it, ignore the interrupt that is meant for the parent.

    Source:
        Definition.

    Example:
        >>> main()  # doctest: +SKIP
    """
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    run_job(json.load(sys.stdin), sys.stdout)


if __name__ == "__main__":
    main()
