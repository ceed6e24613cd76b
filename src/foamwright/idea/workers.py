"""Who computes: all cores of this computer, or a Dask cluster when one is named."""

from __future__ import annotations

import contextlib
import os
import signal
import threading
import time
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from foamwright.core.errors import FoamwrightError
from foamwright.idea.problem import Case
from foamwright.idea.task import Answer, Row, answer

SILENCE = 60.0  # s without any answer after which a cluster counts as gone; assumed
CHUNKS = 16  # pieces of work a worker and generation, so that none waits long for another
CONNECT = 5.0  # s to find a cluster

type Say = Callable[[str], None]
type Work = Callable[[Literal["score", "draw"], Sequence[Row]], list[Answer]]


class ClusterGone(FoamwrightError):
    """The cluster does not answer any more."""


@dataclass(frozen=True, slots=True)
class Crew:
    """Who computes.

    Attributes:
        work: (kind, rows) -> answers, in the order of the rows.
        workers: How many. [-]
    """

    work: Work
    workers: int


@contextlib.contextmanager
def crew_of(
    case: Case, *, jobs: int | None = None, cluster: str | None = None, say: Say = lambda _: None
) -> Generator[Crew]:
    """Cores of this computer, or a cluster that falls back to them when it goes away.

    Args:
        case: The bench and wishes. [-]
        jobs: Cores; None takes all, 1 computes in this process. [-]
        cluster: Address of a Dask scheduler, such as "tcp://host:8786"; None has none. [-]
        say: Told when a cluster goes away. [-]

    Returns:
        The crew, as a context. [-]

    Raises:
        FoamwrightError: A cluster is named and Dask is not installed.

    Source:
        joblib; Dask distributed.

    Example:
        >>> with crew_of(case, jobs=1) as crew:
        ...     crew.workers
        1
    """
    count = jobs or os.cpu_count() or 1
    if cluster is None:
        with _local(case, count) as crew:
            yield crew
        return
    with contextlib.ExitStack() as held:
        try:
            far = held.enter_context(_far(case, cluster))
        except ClusterGone as error:
            say(f"{error}; it is done on this computer instead")
            far = None
        near: list[Crew] = []

        def work(kind: Literal["score", "draw"], rows: Sequence[Row]) -> list[Answer]:
            nonlocal far
            if far is not None:
                try:
                    return far.work(kind, rows)
                except ClusterGone as error:
                    say(f"{error}; the search goes on on this computer")
                    far = None
            if not near:
                near.append(held.enter_context(_local(case, count)))
            return near[0].work(kind, rows)

        yield Crew(work, far.workers if far else count)


@contextlib.contextmanager
def _local(case: Case, count: int) -> Generator[Crew]:
    if count == 1:
        yield Crew(lambda kind, rows: answer(case, kind, rows), 1)
        return
    from joblib import Parallel, delayed, parallel_config

    with (
        parallel_config(backend="loky", n_jobs=count, inner_max_num_threads=1),
        Parallel() as pool,
    ):
        _hired(pool, count)

        def work(kind: Literal["score", "draw"], rows: Sequence[Row]) -> list[Answer]:
            size = 1 if kind == "draw" else max(1, len(rows) // (CHUNKS * count))
            pieces = [rows[i : i + size] for i in range(0, len(rows), size)]
            done: list[Any] = list(pool(delayed(answer)(case, kind, piece) for piece in pieces))
            return [each for piece in done for each in piece]

        yield Crew(work, count)


def _hired(pool: Any, count: int) -> None:  # noqa: ANN401 - the library has no types
    """Start the workers deaf to Ctrl-C: this process decides when the work ends."""
    from joblib import delayed

    if threading.current_thread() is not threading.main_thread():
        pool(delayed(int)(0) for _ in range(2 * count))
        return
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        pool(delayed(int)(0) for _ in range(2 * count))
    finally:
        signal.signal(signal.SIGINT, before)


@contextlib.contextmanager
def _far(case: Case, address: str) -> Generator[Crew]:
    try:
        from distributed import Client
    except ImportError:
        words = "A cluster needs Dask: install foamwright[cluster], or leave --cluster out."
        raise FoamwrightError(words) from None
    try:
        client: Any = Client(address, timeout=CONNECT, set_as_default=False)
    except (OSError, TimeoutError, ValueError) as error:
        raise ClusterGone(f"no cluster answers at {address} ({type(error).__name__})") from None
    try:
        workers = sum(client.nthreads().values())
        if workers == 0:
            raise ClusterGone(f"the cluster at {address} has no workers")

        def work(kind: Literal["score", "draw"], rows: Sequence[Row]) -> list[Answer]:
            size = 1 if kind == "draw" else max(1, len(rows) // (CHUNKS * workers))
            pieces = [list(rows[i : i + size]) for i in range(0, len(rows), size)]
            return _gathered(client, case, kind, pieces)

        yield Crew(work, workers)
    finally:
        with contextlib.suppress(Exception):
            client.close(timeout=1)


def _gathered(
    client: Any,  # noqa: ANN401 - the library has no types
    case: Case,
    kind: str,
    pieces: Sequence[Sequence[Row]],
) -> list[Answer]:
    """Hand pieces out and wait, looking now and then whether the cluster still lives."""
    try:
        futures = [client.submit(answer, case, kind, piece, pure=False) for piece in pieces]
        last, done = time.monotonic(), 0
        while done < len(futures):
            time.sleep(0.01)
            now = sum(future.done() for future in futures)
            if now > done:
                last, done = time.monotonic(), now
            if client.status != "running" or not _has_workers(client, last):
                raise ClusterGone("the cluster has gone away")
        return [each for future in futures for each in future.result(timeout=CONNECT)]
    except ClusterGone:
        raise
    except Exception as error:  # whatever a broken connection raises
        raise ClusterGone(f"the cluster has gone away ({type(error).__name__})") from None


def _has_workers(client: Any, last: float) -> bool:  # noqa: ANN401 - the library has no types
    waited = time.monotonic() - last
    if waited < 2.0:
        return True
    return waited < SILENCE and bool(client.scheduler_info()["workers"])
