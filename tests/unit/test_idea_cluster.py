"""The search on a Dask cluster on this computer, and when it goes away."""

import warnings

import numpy as np
import pytest

from foamwright.core.errors import FoamwrightError
from foamwright.idea import workers
from foamwright.idea.problem import problem_of
from foamwright.idea.workers import crew_of
from idea_samples import case_of

distributed = pytest.importorskip("distributed")


@pytest.fixture
def cluster():
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        made = distributed.LocalCluster(
            n_workers=1,
            threads_per_worker=1,
            processes=False,
            dashboard_address=None,
            host="127.0.0.1",
            protocol="tcp",
        )
        yield made
        made.close(timeout=2)


def rows_of(case, count):
    genes = len(problem_of(case).genes)
    return [tuple(row) for row in np.random.default_rng(3).random((count, genes)).tolist()]


@pytest.mark.filterwarnings("ignore")
def test_same_answer_on_a_cluster(cluster):
    case = case_of("ostermyr")
    rows = rows_of(case, 6)
    with crew_of(case, jobs=1) as near, crew_of(case, cluster=cluster.scheduler_address) as far:
        assert far.work("score", rows) == near.work("score", rows)


@pytest.mark.filterwarnings("ignore")
def test_search_goes_on_here_when_the_cluster_goes_away(cluster):
    case = case_of("ostermyr")
    rows, said = rows_of(case, 4), []
    with crew_of(case, jobs=1, cluster=cluster.scheduler_address, say=said.append) as crew:
        first = crew.work("score", rows)
        cluster.close(timeout=2)
        assert crew.work("score", rows) == first
    assert any("goes on on this computer" in words for words in said)


@pytest.mark.filterwarnings("ignore")
def test_no_cluster_there(monkeypatch):
    monkeypatch.setattr(workers, "CONNECT", 0.5)
    case, said = case_of("ostermyr"), []
    with crew_of(case, jobs=1, cluster="tcp://127.0.0.1:9", say=said.append) as crew:
        assert len(crew.work("score", rows_of(case, 1))) == 1
    assert "no cluster answers at tcp://127.0.0.1:9" in said[0]


def test_dask_not_installed(monkeypatch):
    import builtins

    real = builtins.__import__

    def without(name, *rest, **more):
        if name.startswith("distributed"):
            raise ImportError(name)
        return real(name, *rest, **more)

    monkeypatch.setattr(builtins, "__import__", without)
    case = case_of("ostermyr")
    with (
        pytest.raises(FoamwrightError, match=r"install foamwright\[cluster\]"),
        crew_of(case, cluster="tcp://127.0.0.1:9"),
    ):
        pass
