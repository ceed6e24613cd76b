"""Time the aerodynamics room. Printed, not gated.

    python bench/aero.py [--runs N]

Everything is timed in one run on one core, beside bare LAPACK solves of matrices of the same size,
so that the ratios mean the same on a slow machine and a fast one: the two systems of half a plane
that we solve, and the one of the whole plane that mirror symmetry spares.
"""

import argparse
import math
import os
import statistics
import time
from collections.abc import Callable
from dataclasses import replace

os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
os.environ["FOAMWRIGHT_CACHE"] = "off"

import numpy as np

from foamwright.aero import lattice as rows
from foamwright.aero.analyse import analyse
from foamwright.aero.batch import Variant, analyse_all
from foamwright.aero.coupled import coupled_polar
from foamwright.aero.coupled_panels import mass_influence, sharp_tail
from foamwright.aero.lattice import LatticeSolution, solve_lattice, solve_surfaces
from foamwright.aero.mesh import Fineness
from foamwright.aero.outline import panel_points
from foamwright.aero.sections import outline_polar, section_polars
from foamwright.aero.viscous import on_angles, section_curve
from foamwright.aero.vortex_panels import panel_flow
from foamwright.opening import load
from foamwright.plane import Plane
from foamwright.shape.reference import clark_y

TABLE_ANGLES = np.radians(np.linspace(-8.0, 16.0, 25))
TABLE_REYNOLDS = np.array([60e3, 100e3, 150e3, 250e3, 400e3])
DESIGN = "examples/brindle-cob.toml"


def timed(task: Callable[[], object], runs: int) -> list[float]:
    """Seconds of each run."""
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        task()
        times.append(time.perf_counter() - begin)
    return times


def show(what: str, times: list[float], note: str = "") -> float:
    """Print a row and hand back its median."""
    middle = statistics.median(times)
    print(f"{what:<50}{1e3 * middle:9.2f} ms  best {1e3 * min(times):8.2f}  {note}", flush=True)
    return middle


def unmirrored(solution: LatticeSolution) -> Callable[[], object]:
    """One system with both halves in it, as a lattice without mirror symmetry would solve."""
    mesh = solution.mesh
    count = len(mesh.strip) + int((~mesh.centred).sum())
    chance = np.random.default_rng(1)
    matrix = chance.normal(size=(count, count)) + count * np.eye(count)
    right = chance.normal(size=(count, len(solution.cases)))
    return lambda: np.linalg.solve(matrix, right)


def bare(solution: LatticeSolution) -> Callable[[], object]:
    """The same two systems of equations, filled at random."""
    mesh = solution.mesh
    whole, right = len(mesh.strip), int((~mesh.centred).sum())
    alike = sum(case.symmetric for case in solution.cases)
    chance = np.random.default_rng(1)
    first = chance.normal(size=(right, right)) + right * np.eye(right)
    second = chance.normal(size=(whole, whole)) + whole * np.eye(whole)
    sides = chance.normal(size=(right, alike)), chance.normal(size=(whole, whole))
    other = sides[1][:, : len(solution.cases) - alike]
    return lambda: (np.linalg.solve(first, sides[0]), np.linalg.solve(second, other))


def plane_result(plane: Plane, runs: int) -> None:
    """Whole-plane result, tables known, on the usual lattice and on finer ones."""
    frame, balance = plane.airframe, plane.balance
    surfaces = [s for s in (frame.wing, frame.stab, frame.fin) if s is not None]

    def result(wing: Fineness, tail: Fineness) -> LatticeSolution:
        solution = solve_surfaces(surfaces, [wing, tail, tail][: len(surfaces)])
        analyse(
            frame,
            solution,
            plane.polars,
            air=plane.air,
            mass=balance.all_up_mass,
            cg=balance.cg,
        )
        return solution

    past: list[tuple[int, float]] = []
    for factor in (0.5, 0.75, 1.0, 1.5, 2.0):
        fine = tuple(
            Fineness(round(base.strips * factor), round(base.rows * math.sqrt(factor)))
            for base in (rows.WING_FINENESS, rows.TAIL_FINENESS)
        )
        solution = result(*fine)
        count = len(solution.mesh.strip)
        lapack = statistics.median(timed(bare(solution), runs))
        whole = statistics.median(timed(unmirrored(solution), runs))
        times = timed(lambda fine=fine: result(*fine), runs)
        middle = statistics.median(times)
        past.append((count, middle))
        note = (
            f"{middle / lapack:.1f} x the halves' bare solves, {middle / whole:.1f} x the whole's"
        )
        used = ", as used" if factor == 1.0 else ""
        show(f"whole plane, {count} panels of the right half{used}", times, note)
    (few, quick), (many, slow) = past[0], past[-1]
    power = math.log(slow / quick) / math.log(many / few)
    print(f"{'growth with panels':<50}{'':>9}     power {power:.2f} (bound: 3)")


def sections(runs: int) -> None:
    """A section table of 25 angles and 5 Reynolds numbers, nothing kept."""
    upper, lower, _ = clark_y()

    def table() -> None:
        flow = panel_flow(panel_points(upper, lower))
        on_angles(section_curve(flow, TABLE_REYNOLDS), TABLE_ANGLES)

    def coupled() -> None:
        flow = mass_influence(sharp_tail(panel_points(upper, lower)))
        coupled_polar(flow, TABLE_ANGLES, TABLE_REYNOLDS)

    def whole() -> None:
        outline_polar(tuple(map(tuple, upper)), tuple(map(tuple, lower)))

    show("one-way layer, 25 angles x 5 Reynolds numbers", timed(table, runs))
    show("coupled layer, 25 angles x 5 Reynolds numbers", timed(coupled, 3))
    show("section table of an outline, all of it, cold", timed(whole, 3), "46 angles x 7 numbers")


def batch(plane: Plane, runs: int, count: int = 24) -> None:
    """Variants together against one by one."""
    frame, balance, air = plane.airframe, plane.balance, plane.air
    x, y, z = balance.cg
    moved = [
        Variant(frame, balance.all_up_mass * (1.0 + 0.01 * k), (x + 0.0005 * k, y, z))
        for k in range(count)
    ]

    def single(variant: Variant) -> object:
        own = variant.airframe
        return analyse(
            own,
            solve_lattice(own),
            section_polars(own, air),
            air=air,
            mass=variant.mass,
            cg=variant.cg,
        )

    shaped = [
        Variant(
            replace(
                frame, stab=replace(frame.stab, mean_chord_x=frame.stab.mean_chord_x + 1e-6 * k)
            ),
            balance.all_up_mass,
            balance.cg,
        )
        for k in range(count)
    ]
    for what, asked in (("mass and CG", moved), ("shapes", shaped)):
        apart = show(f"{count} {what} one by one", timed(lambda a=asked: [*map(single, a)], runs))
        times = timed(lambda a=asked: analyse_all(a, air=air), runs)
        together = statistics.median(times)
        show(f"{count} {what} in a batch", times, f"{apart / together:.2f} x as fast")


def main() -> None:
    """Run and print all timings."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("design", nargs="?", default=DESIGN)
    parser.add_argument("--runs", type=int, default=15)
    chosen = parser.parse_args()
    plane = load(chosen.design)
    _ = plane.aero
    sections(chosen.runs)
    plane_result(plane, chosen.runs)
    batch(plane, max(chosen.runs // 3, 3))


if __name__ == "__main__":
    main()
