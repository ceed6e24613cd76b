"""A changed plane takes over the results that its change leaves alone, and only those."""

from pathlib import Path

import pytest

import foamwright
from foamwright.checks.run import verdicts
from foamwright.plane import Plane

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "brindle-cob.toml"


@pytest.fixture(scope="module")
def trainer():
    plane = foamwright.load(EXAMPLE)
    verdicts(plane)
    return plane


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("field.wind", 1.0),
        ("field.altitude", 900.0),
        ("pilot.level", "beginner"),
        ("learned.mass", 0.03),
        ("servo.0.arm", 0.012),
        ("glue.stock", "white glue"),
        ("propeller.pitch", 0.12),
    ],
)
def test_what_a_changed_plane_takes_over_is_what_it_would_compute(trainer, key, value):
    changed = trainer.with_values({key: value})
    anew = Plane(changed.design, changed._given_stock, changed._above)
    assert [(c.id, c.value) for c in verdicts(changed)] == [(c.id, c.value) for c in verdicts(anew)]
