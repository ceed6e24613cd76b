"""Many variants of a plane at once: what they have in common is worked out once."""

from collections.abc import Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context

from foamwright.aero.analyse import analyse
from foamwright.aero.lattice import LatticeSolution, solve_lattice
from foamwright.aero.model import AeroResult
from foamwright.aero.sections import SectionPolars, section_polars
from foamwright.core.air import Air
from foamwright.core.errors import ModelError
from foamwright.core.processes import hands_for
from foamwright.shape.model import Airframe, LiftingSurface

WORTH = 24  # distinct shapes from which more processes pay, 8 ms each against 80 ms to start them

type Surfaces = tuple[LiftingSurface, LiftingSurface, LiftingSurface | None]


@dataclass(frozen=True, slots=True)
class Variant:
    """One plane of a batch.

    Attributes:
        airframe: The shape.
        mass: All-up. [kg]
        cg: Centre of gravity. [m]
    """

    airframe: Airframe
    mass: float
    cg: tuple[float, float, float]


def analyse_all(
    variants: Sequence[Variant], *, air: Air, workers: int | None = None
) -> tuple[AeroResult | ModelError, ...]:
    """Every variant's aerodynamics, in order; a variant that cannot fly gives its error instead.

    Variants of the same wing, stab and fin share one lattice, equal sections one table: that is
    what makes a batch quick. Distinct shapes gain only by several processes. The answers are those
    of the single call, bit for bit.

    Args:
        variants: The planes.
        air: The air.
        workers: Processes to spread distinct shapes over; 1 stays in this one; None takes all cores
            from WORTH shapes on, where a process can be forked safely. [-]

    Returns:
        One result or error a variant.

    Raises:
        ModelError: Fewer than one worker.

    Source:
        `analyse`.

    Example:
        >>> analyse_all([], air=air)  # doctest: +SKIP
        ()
    """
    if workers is not None and workers < 1:
        raise ModelError(f"A batch needs at least one worker; got {workers}.")
    groups: dict[Surfaces, list[int]] = {}
    for index, variant in enumerate(variants):
        frame = variant.airframe
        groups.setdefault((frame.wing, frame.stab, frame.fin), []).append(index)
    jobs = [[variants[index] for index in group] for group in groups.values()]
    work = partial(_group, air=air)
    hands = min(hands_for(len(jobs), worth=WORTH) if workers is None else workers, len(jobs))
    if hands <= 1:
        return _ordered(groups, map(work, jobs), len(variants))
    context = get_context("fork") if workers is None else None
    with ProcessPoolExecutor(hands, mp_context=context) as pool:
        done = pool.map(work, jobs, chunksize=max(1, len(jobs) // (2 * hands)))
        return _ordered(groups, done, len(variants))


def _group(variants: list[Variant], *, air: Air) -> list[AeroResult | ModelError]:
    """Variants of one set of surfaces."""
    frame = variants[0].airframe
    lattice, polars = solve_lattice(frame), section_polars(frame, air)
    return [_one(variant, lattice, polars, air=air) for variant in variants]


def _one(
    variant: Variant, lattice: LatticeSolution, polars: SectionPolars, *, air: Air
) -> AeroResult | ModelError:
    frame = variant.airframe
    try:
        return analyse(frame, lattice, polars, air=air, mass=variant.mass, cg=variant.cg)
    except ModelError as error:
        return error


def _ordered(
    groups: dict[Surfaces, list[int]],
    done: Iterable[list[AeroResult | ModelError]],
    count: int,
) -> tuple[AeroResult | ModelError, ...]:
    found: list[AeroResult | ModelError] = [ModelError("not computed")] * count
    for places, results in zip(groups.values(), done, strict=True):
        for place, result in zip(places, results, strict=True):
            found[place] = result
    return tuple(found)
