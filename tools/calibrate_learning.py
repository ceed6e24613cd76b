"""Check that learning is honest: made-up builders, their logbooks, and what learning says of them.

Draws hidden faults, lets a made-up pilot fill a logbook, learns from that alone, and counts: how
often the 80 % bands hold the truth (simulation-based calibration), how often the fault named first
is the one that was put in, how often the next version no longer shows what the pilot saw.

    python tools/calibrate_learning.py [builders] [faults of each kind]

writes docs/pictures/learning-calibration.svg and docs/physics/learning-calibration.md.
"""

import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np
from calibration_page import AGAIN, AGAIN_ON, PLANES, Flight, Row, page_of, picture_of

import foamwright
from foamwright.logbook.basis import Basis, basis_of
from foamwright.logbook.causes import CAUSES
from foamwright.logbook.evidence import evidence_of
from foamwright.logbook.hidden import quantities_of, spreads_of
from foamwright.logbook.infer import infer
from foamwright.logbook.makers import makers_of
from foamwright.logbook.readout import READOUTS, values_of
from foamwright.logbook.rehearse import FAULT, draw_builder, draw_fault, notes_of
from foamwright.logbook.rehearse_flights import KINDS, flown_cases, flown_left
from foamwright.logbook.rehearse_next import symptoms_left
from foamwright.logbook.version import propose_version
from foamwright.plane import Plane

ROOT = Path(__file__).parents[1]
BUILDERS, FAULTS = 500, 10
PAGE = ROOT / "docs" / "physics" / "learning-calibration.md"
PICTURE = ROOT / "docs" / "pictures" / "learning-calibration.svg"
FLOWN, FLOWN_ON = 3, ("brindle-cob", "tansy-drift")
OTHER = (0.7, 1.0), (1.3, 1.7)  # sizes that nothing was chosen by
FAULTLESS = 8  # builders of each plane with nothing off


@dataclass(frozen=True)
class Opened:
    """A plane with what learning needs of it.

    Attributes:
        plane: The plane.
        basis: Its figures.
        spreads: Of what is not known. [as each]
    """

    plane: Plane
    basis: Basis
    spreads: np.ndarray


def opened(name: str) -> Opened:
    """Open an example.

    Args:
        name: Of its file. [-]

    Returns:
        The plane and its figures.

    Source:
        Definition.

    Example:
        >>> opened("brindle-cob").spreads.shape  # doctest: +SKIP
        (18,)
    """
    plane = foamwright.load(ROOT / "examples" / f"{name}.toml")
    return Opened(plane, basis_of(plane), spreads_of(quantities_of(plane)))


def ranks_of(job: tuple[str, int, int]) -> np.ndarray:
    """Share of the posterior below the truth, builder by builder, quantity by quantity.

    Args:
        job: Plane, number of builders, seed. [-]

    Returns:
        One row a builder, one column a readout. [-]

    Source:
        [TALTS].

    Example:
        >>> ranks_of(("brindle-cob", 1, 1)).shape  # doctest: +SKIP
        (1, 15)
    """
    name, builders, seed = job
    here, generator = opened(name), np.random.default_rng(seed)
    rows = []
    for _ in range(builders):
        hidden, _cause = draw_builder(generator, here.basis, here.spreads)
        log = notes_of(here.plane, here.basis, hidden, generator)
        evidence = evidence_of(here.plane, log, here.basis)
        left = infer(here.basis, evidence.seen, spreads=here.spreads)
        rows.append(
            [
                float(left.weights @ (values_of(one, left.samples) < values_of(one, hidden)[0]))
                for one in READOUTS
            ]
        )
    return np.array(rows)


def faults_of(job: tuple[str, str, int, int], sizes: tuple[float, float] = FAULT) -> list[Row]:
    """Single faults: put in, named first, symptoms seen, symptoms left, whole logbook or not.

    Args:
        job: Plane, cause, number of cases, seed. [-]
        sizes: Of the fault, in standard deviations of causes.py. [-]

    Returns:
        One row a case.

    Source:
        Definition.

    Example:
        >>> faults_of(("brindle-cob", "drag", 1, 1))  # doctest: +SKIP
        [('drag', 'drag', 1, 0, True)]
    """
    name, cause, cases, seed = job
    here, generator = opened(name), np.random.default_rng(seed)
    rows = []
    for case in range(cases):
        hidden = draw_fault(generator, here.basis, here.spreads, cause, sizes=sizes)
        log = notes_of(here.plane, here.basis, hidden, generator, everything=case % 2 == 0)
        version = propose_version(here.plane, log, mend=False)
        named = next(c.name for c in version.lesson.causes if c.name != "none")
        seen, left = symptoms_left(here.basis, version, hidden, generator, log=log)
        rows.append((cause, named, int(bool(seen)), int(bool(left)), case % 2 == 0))
    return rows


def flights_of(job: tuple[str, int, int]) -> list[Flight]:
    """Single faults of builders' size seen through whole flights in six degrees of freedom.

    Args:
        job: Plane, builders of each kind, seed. [-]

    Returns:
        Plane, put in, whether anything abnormal was noted, named first, its chance, symptoms ticked
        and left in the next version (0 where that was not flown); one row a case.

    Source:
        rehearse_flights.py.

    Example:
        >>> flights_of(("brindle-cob", 1, 500))[0][1]  # doctest: +SKIP
        'twist'
    """
    name, each, seed = job
    here = opened(name)
    rows: list[Flight] = []
    generator = np.random.default_rng(seed)
    for place, case in enumerate(flown_cases(here.plane, each, generator)):
        evidence = evidence_of(here.plane, case.log, here.basis)
        makers = makers_of(here.basis, evidence, spreads=here.spreads)
        first = 1 + int(np.argmax(makers.chances[1:]))
        before: tuple[str, ...] = ()
        after: tuple[str, ...] = ()
        if name in AGAIN_ON and place < AGAIN * len(KINDS):
            version = propose_version(here.plane, case.log, mend=False)
            before, after = flown_left(version, case, generator)
        rows.append((name, case.cause, bool(makers.abnormal), CAUSES[first].name,
                     float(makers.chances[first]), len(before), len(after)))  # fmt: skip
    return rows


def changes_of(job: tuple[str, int, int]) -> list[int]:
    """Changes that are proposed to builders of a plane with nothing off.

    Args:
        job: Plane, builders, seed. [-]

    Returns:
        One count a builder, seen through whole made-up logbooks.

    Source:
        Definition.

    Example:
        >>> changes_of(("brindle-cob", 1, 1))  # doctest: +SKIP
        [0]
    """
    name, builders, seed = job
    here, generator = opened(name), np.random.default_rng(seed)
    nothing = np.zeros((1, len(here.spreads)))
    found: list[int] = []
    for _ in range(builders):
        log = notes_of(here.plane, here.basis, nothing, generator, everything=True)
        found.append(len(propose_version(here.plane, log, mend=False).changes))
    return found


def main() -> None:
    """Run the whole calibration on all cores and write page and picture."""
    builders, faults = (
        int(word) for word in (*sys.argv[1:3], *(BUILDERS, FAULTS)[len(sys.argv) - 1 :])
    )
    each = -(-builders // len(PLANES))
    jobs = [(name, each, 100 + place) for place, name in enumerate(PLANES)]
    few = -(-faults // len(PLANES))
    cases = [
        (name, cause.name, few, 1000 + 31 * place + row)
        for place, name in enumerate(PLANES)
        for row, cause in enumerate(CAUSES[1:])
    ]
    with ProcessPoolExecutor() as pool:
        ranks = np.concatenate(list(pool.map(ranks_of, jobs)))
        rows = [row for found in pool.map(faults_of, cases) for row in found]
        fewer = [(name, cause, 1, seed + 7000) for name, cause, _, seed in cases]
        others = {
            sizes: [row for found in pool.map(partial(faults_of, sizes=sizes), fewer)
                    for row in found]
            for sizes in OTHER
        }  # fmt: skip
        nothing = pool.map(changes_of, [(name, FAULTLESS, 77) for name in PLANES])
        counts = [count for found in nothing for count in found]
        flown = pool.map(flights_of, [(name, FLOWN, 2026) for name in FLOWN_ON])
        flights = [row for found in flown for row in found]
    picture_of(ranks, PICTURE)
    PAGE.write_text(page_of(ranks, rows, flights, others=others, counts=counts), encoding="utf-8")
    sys.stdout.write(f"{PAGE}\n")


if __name__ == "__main__":
    main()
