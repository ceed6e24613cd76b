"""Which next test would settle best what is off: information expected from its outcome."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.flight.observations import OBSERVATIONS
from foamwright.logbook import evidence
from foamwright.logbook.basis import Basis
from foamwright.logbook.causes import CAUSES, odds, widths
from foamwright.logbook.infer import Posterior
from foamwright.logbook.lesson import NextTest
from foamwright.logbook.likelihood import shown_in
from foamwright.logbook.makers import Makers
from foamwright.logbook.outcomes import SCALES, tick_chances

type Array = NDArray[np.float64]

BENCH_READING = 0.05  # relative, pull on a kitchen scale; common practice, no source
BINS = 15  # that the outcome of a reading is sorted into
FEW = 1500  # samples that are enough for this


@dataclass(frozen=True, slots=True)
class Measure:
    """A reading that could be taken.

    Attributes:
        key: Of the logbook.
        title: What to do.
        shown: What it reads.
        noise: One standard deviation. [as shown]
    """

    key: str
    title: str
    shown: str
    noise: float


def measures_of(basis: Basis) -> tuple[Measure, ...]:
    """Readings that a builder can take, with their errors.

    Args:
        basis: The plane as drawn. [-]

    Returns:
        Measures.

    Source:
        Errors as in evidence.py.

    Example:
        >>> from foamwright.logbook.basis import basis_of
        >>> measures_of(basis_of(plane))[0].key
        'all-up'
    """
    roll = basis.aero.derivatives.roll_aileron != 0.0
    side = "aileron" if roll else "rudder"
    angle = evidence.ANGLE_READING
    return (
        Measure("all-up", "weigh the plane, pack in", "mass",
                evidence.SCALE_READING / basis.mass),
        Measure("cg", "find the CG on two finger tips", "cg_aft", evidence.CG_READING),
        Measure("twist right", "measure the twist of both tips against the root", "twist",
                1.4 * angle),
        Measure("right thrust", "measure the motor's right thrust", "right_thrust", angle),
        Measure("down thrust", "measure the motor's down thrust", "down_thrust", angle),
        Measure("wing incidence", "measure wing and stab incidence", "decalage", 1.4 * angle),
        Measure(f"trim_{side}", f"trim the roll out in level flight and note the {side}",
                f"trim_{side}", evidence.TRIM_READING),
        Measure("trim_elevator", "trim level at half throttle and note the elevator",
                "trim_elevator", evidence.TRIM_READING),
        Measure("glide_distance", "glide from a known height in calm air and pace the distance",
                "glide", evidence.GLIDE_READING),
        Measure("back", "fly level at one speed, note minutes and the charge put back", "current",
                evidence.CURRENT_READING),
        Measure("throttle", "note the stick in level flight", "throttle",
                evidence.STICK_READING),
        Measure("bench", "weigh the pull on the bench at full stick ('foamwright bench')", "thrust",
                BENCH_READING),
        Measure("fly-by", "record a fly-by at full throttle both ways ('foamwright listen')",
                "top_speed", evidence.PASS_READING),
    )  # fmt: skip


def enquiries_for(
    basis: Basis,
    left: Posterior,
    *,
    spreads: Array,
    makers: Makers | None = None,
    most: int = 4,
) -> tuple[NextTest, ...]:
    """Tests in the order of what their outcome would tell about which cause it is.

    Mutual information between outcome and cause, I = H(outcome) - sum_c P(c) H(outcome | c), over
    the samples of the posterior, or of what makes the abnormal where something was; and the chance
    that the likeliest cause is then the right one.

    Args:
        basis: The plane as drawn. [-]
        left: After everything seen. [-]
        spreads: Of the quantities. [as each]
        makers: What makes the abnormal; None for none. [-]
        most: Tests told. [-]

    Returns:
        Most telling first.

    Source:
        [LINDLEY].

    Example:
        >>> from foamwright.logbook.hidden import quantities_of, spreads_of
        >>> from foamwright.logbook.basis import basis_of
        >>> from foamwright.logbook.infer import infer
        >>> spreads, basis = spreads_of(quantities_of(plane)), basis_of(plane)
        >>> len(enquiries_for(basis, infer(basis, (), spreads=spreads), spreads=spreads))
        4
    """
    if makers is not None and makers.abnormal:
        samples, weights, shares = _by_cause(makers)
    else:
        samples, weights, shares = _thinned(basis, left, spreads)
    shown = _shown(basis, samples)
    chances = shares.T @ weights
    asked = {item.key: item.question for item in OBSERVATIONS}
    found: list[NextTest] = []
    for key in ("launch", *SCALES):
        bits, right = _told(tick_chances(key, shown), weights, shares, chances)
        title = f"fly once more and look: {asked[key][0].lower()}{asked[key][1:]}"
        found.append(NextTest(key, title, bits, right))
    for measure in measures_of(basis):
        if measure.shown in shown:
            sorted_in = _sorted_in(shown[measure.shown], measure.noise, weights)
            bits, right = _told(sorted_in, weights, shares, chances)
            found.append(NextTest(measure.key, measure.title, bits, right))
    return tuple(sorted(found, key=lambda test: -test.bits)[:most])


def _thinned(basis: Basis, left: Posterior, spreads: Array) -> tuple[Array, Array, Array]:
    """Few samples, their weights, and the chance of every cause for each."""
    order = np.argsort(-left.weights)[:FEW]
    samples, weights = left.samples[order], left.weights[order]
    weights = weights / weights.sum()
    wide, places = widths(basis, spreads), samples / spreads
    logs = np.stack(
        [
            np.log(odds()[c])
            - np.log(wide[c]).sum()
            - 0.5 * np.sum((places / wide[c]) ** 2, axis=1)
            for c in range(len(CAUSES))
        ],
        axis=1,
    )
    shares = np.exp(logs - logs.max(axis=1, keepdims=True))
    return samples, weights, shares / shares.sum(axis=1, keepdims=True)


def _by_cause(makers: Makers) -> tuple[Array, Array, Array]:
    """Guesses under each cause, weighed by its chance."""
    each = len(makers.samples) // len(CAUSES)
    weights = np.repeat(makers.chances / each, each)
    return makers.samples, weights, np.repeat(np.eye(len(CAUSES)), each, axis=0)


def _shown(basis: Basis, samples: Array) -> Mapping[str, Array]:
    shown = shown_in(basis, samples)
    return {
        **shown,
        "twist": shown["twist_right"] - shown["twist_left"],
        "decalage": shown["wing_incidence"] - shown["stab_incidence"],
    }


def _sorted_in(shown: Array, noise: float, weights: Array) -> Array:
    """Chance of every bin of a reading, for every sample."""
    order = np.argsort(shown)
    place = np.cumsum(weights[order])
    low, high = np.interp([0.02, 0.98], place, shown[order])
    edges = np.linspace(low - 1.5 * noise, high + 1.5 * noise, BINS + 1)[1:-1]
    steps = np.clip(1.702 * (edges[None, :] - shown[:, None]) / noise, -30.0, 30.0)
    under = 1.0 / (1.0 + np.exp(-steps))
    ends = np.ones((len(shown), 1))
    return np.diff(np.concatenate([0.0 * ends, under, ends], axis=1), axis=1)


def _told(outcomes: Array, weights: Array, shares: Array, chances: Array) -> tuple[float, float]:
    joint = (shares * weights[:, None]).T @ outcomes  # (cause, outcome)
    whole = joint.sum(axis=0)
    given = joint / np.maximum(chances[:, None], 1e-12)
    bits = _entropy(whole) - float(chances @ np.array([_entropy(row) for row in given]))
    return max(bits, 0.0), float(joint.max(axis=0).sum())


def _entropy(chances: Array) -> float:
    some = chances[chances > 1e-12]
    return float(-np.sum(some * np.log2(some)))
