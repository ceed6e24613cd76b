"""A batch says what single calls say, and shares what the variants share."""

import pytest

from airframes import trainer
from foamwright.aero import batch
from foamwright.aero.analyse import analyse
from foamwright.aero.batch import Variant, analyse_all
from foamwright.aero.lattice import solve_lattice
from foamwright.aero.sections import section_polars
from foamwright.core.air import air_at
from foamwright.core.errors import ModelError

AIR = air_at()


def variants():
    frames = [trainer(), trainer(tail_span=0.44)]
    return [
        Variant(frame, mass, (0.28 + 0.002 * k, 0.0, 0.0))
        for k, mass in enumerate((0.5, 0.6, 0.7))
        for frame in frames
    ]


def single(variant):
    frame = variant.airframe
    return analyse(
        frame,
        solve_lattice(frame),
        section_polars(frame, AIR),
        air=AIR,
        mass=variant.mass,
        cg=variant.cg,
    )


def test_a_batch_is_the_single_calls_in_order():
    asked = variants()
    assert analyse_all(asked, air=AIR) == tuple(single(variant) for variant in asked)


def test_equal_shapes_share_one_lattice(monkeypatch):
    calls = []

    def counted(frame):
        calls.append(frame)
        return solve_lattice(frame)

    monkeypatch.setattr(batch, "solve_lattice", counted)
    analyse_all(variants(), air=AIR)
    assert len(calls) == 2


def test_one_bad_variant_does_not_spoil_the_rest():
    bad = Variant(trainer(), 0.0, (0.28, 0.0, 0.0))
    found = analyse_all([*variants()[:1], bad], air=AIR)
    assert found[0].stall_speed > 0.0
    assert isinstance(found[1], ModelError)


def test_two_processes_say_the_same():
    asked = variants()
    assert analyse_all(asked, air=AIR, workers=2) == analyse_all(asked, air=AIR)


def test_nothing_and_nonsense():
    assert analyse_all([], air=AIR) == ()
    with pytest.raises(ModelError, match="at least one worker"):
        analyse_all(variants(), air=AIR, workers=0)
