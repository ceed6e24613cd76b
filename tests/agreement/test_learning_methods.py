"""Learning by second methods: chains for weighed samples, strips and flights for slopes."""

import math

import numpy as np
import pytest

from foamwright.flight.simulation.advance import advance
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.state import attitude_of
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.trial.let_go import ROLL_WATCH
from foamwright.logbook.basis import basis_of
from foamwright.logbook.causes import odds, possible, widths
from foamwright.logbook.evidence import CG_READING, evidence_of
from foamwright.logbook.hidden import COLUMN, NAMES, quantities_of, spreads_of
from foamwright.logbook.infer import infer, interval
from foamwright.logbook.likelihood import log_likelihood
from foamwright.logbook.model import Log
from foamwright.logbook.readout import READOUTS, values_of
from foamwright.logbook.responses import centred
from foamwright.logbook.store import entry_of


@pytest.fixture(scope="module")
def known(cob):
    return basis_of(cob), spreads_of(quantities_of(cob))


def log_of(*said):
    return Log(tuple(entry_of(k, words, number=i) for i, (k, words) in enumerate(said, 1)))


def log_prior(places, basis, spreads):
    wide = widths(basis, spreads)
    logs = [
        math.log(odds()[c]) - np.log(wide[c]).sum() - 0.5 * np.sum((places / wide[c]) ** 2, axis=1)
        for c in range(len(odds()))
    ]
    ruled_out = np.where(possible(places * spreads), 0.0, -1e9)
    return np.logaddexp.reduce(logs, axis=0) + ruled_out


def chains(basis, seen, spreads, *, walkers=240, rounds=1600, seed=3):
    """Differential evolution Markov chains [TER-BRAAK], walkers side by side."""
    generator = np.random.default_rng(seed)
    size = len(spreads)
    places = generator.standard_normal((walkers, size))
    height = log_prior(places, basis, spreads) + log_likelihood(basis, places * spreads, seen)
    kept = []
    for turn in range(rounds):
        one, two = (generator.permutation(walkers) for _ in range(2))
        jump = 1.0 if turn % 10 == 0 else 2.38 / math.sqrt(2.0 * size) * 0.8
        tried = places + jump * (places[one] - places[two])
        tried += 1e-3 * generator.standard_normal(tried.shape)
        new = log_prior(tried, basis, spreads) + log_likelihood(basis, tried * spreads, seen)
        taken = np.log(generator.random(walkers)) < new - height
        places = np.where(taken[:, None], tried, places)
        height = np.where(taken, new, height)
        if turn >= rounds // 3 and turn % 4 == 0:
            kept.append(places.copy())
    return np.concatenate(kept) * spreads


@pytest.mark.slow
def test_weighed_samples_and_chains(cob, known):
    """Middles within a fifth of a spread, widths within 20 %."""
    basis, spreads = known
    log = log_of(
        ("weighed", {"what": "all-up", "mass": "700 g"}),
        ("flight", {"roll_slow": "left", "roll_fast": "left", "roll_glide": "left",
                    "yaw_power": "none", "stall": "drops right", "dive_test": "holds",
                    "glide_height": "30 m", "glide_distance": "190 m", "minutes": "6",
                    "back": "150 mAh"}),
    )  # fmt: skip
    seen = tuple(one for one in evidence_of(cob, log, basis).seen if one.key != "launch")
    left = infer(basis, seen, spreads=spreads, samples=20000)
    walked = chains(basis, seen, spreads)
    even = np.full(len(walked), 1.0 / len(walked))
    for readout in READOUTS:
        ours = interval(values_of(readout, left.samples), left.weights)
        theirs = interval(values_of(readout, walked), even)
        width = theirs[2] - theirs[0]
        assert abs(ours[1] - theirs[1]) < 0.2 * width / 2.56, readout.name
        assert ours[2] - ours[0] == pytest.approx(width, rel=0.20), readout.name


def test_one_reading_by_quadrature(cob, known):
    """A measured CG alone: prior and reading on a fine grid of that one quantity."""
    basis, spreads = known
    off = 0.008
    value = f"{1000 * (basis.cg_x + off):.3f} mm"
    seen = evidence_of(cob, log_of(("measured", {"what": "cg", "value": value})), basis).seen
    left = infer(basis, seen, spreads=spreads, samples=20000)
    ours = interval(left.samples[:, COLUMN["cg_aft"]], left.weights)
    grid = np.linspace(-0.05, 0.05, 20001)
    spread = spreads[COLUMN["cg_aft"]]
    wide = widths(basis, spreads)[:, COLUMN["cg_aft"]] * spread
    prior = sum(p / w * np.exp(-0.5 * (grid / w) ** 2) for p, w in zip(odds(), wide, strict=True))
    away = (grid - off) / CG_READING
    chance = 0.97 * np.exp(-0.5 * away**2) + 0.03 / 5.0 * np.exp(-0.5 * (away / 5.0) ** 2)
    below = np.cumsum(prior * chance)
    theirs = np.interp([0.1, 0.5, 0.9], below / below[-1], grid)
    assert ours == pytest.approx(tuple(theirs), abs=0.0002)


def test_twist_by_strips(cob, known):
    """A tip twist that grows from the root rolls like the helix angle of a steady roll."""
    basis, _ = known
    for name, ratio in (("roll_fast", 2.0), ("roll_glide", 1.4)):
        speed = ratio * cob.aero.stall_speed
        helix = 2.0 * speed / cob.aero.span * 0.5  # rad/s per radian of one tip's twist
        found = getattr(basis.responses, name).slopes[COLUMN["twist_left"]]
        # A fifth is lost while the roll gathers and to the sideslip that comes with it.
        assert 0.6 < found / helix < 1.15, name


def test_tip_mass_by_moments(cob, known):
    """m g y against the roll damping; the sideslip on the dihedral takes a part."""
    basis, _ = known
    d, speed = cob.aero.derivatives, 1.2 * cob.aero.stall_speed
    pressure = 0.5 * basis.density * speed**2 * cob.aero.wing_area
    moment = 9.80665 * 0.5 / pressure  # coefficient per kg at the tip, on the span
    rate = moment / -d.roll_roll_rate * 2.0 * speed / cob.aero.span
    found = basis.responses.roll_slow.slopes[COLUMN["tip_mass"]]
    assert 0.5 < found / rate < 1.2


@pytest.mark.parametrize(
    ("flaws", "hidden"),
    [
        (Flaws(left_twist=0.02, right_twist=-0.01), {"twist_left": 0.02, "twist_right": -0.01}),
        (Flaws(right_tip_mass=0.006), {"tip_mass": 0.006}),
        (Flaws(left_tip_mass=0.006, right_twist=0.02), {"tip_mass": -0.006, "twist_right": 0.02}),
    ],
)
def test_slopes_and_whole_flights(cob, known, flaws, hidden):
    """Hands off for a little more than a second, flown in six degrees of freedom."""
    basis, _ = known
    steady = steady_flight(cob.craft, 1.4 * cob.aero.stall_speed, throttle=0.0)
    state = centred(steady.state[0])[None, :]
    craft, step = cob.flawed(flaws), 0.005
    for _ in range(round(ROLL_WATCH / step)):
        sticks = np.array([0.0, 0.0, float(steady.sticks[0, 2]), 0.0])
        state = advance(craft, state, sticks, np.zeros(3), step=step)
    flown = float(attitude_of(state).bank[0])
    guess = np.zeros(len(NAMES))
    for name, value in hidden.items():
        guess[COLUMN[name]] = value
    linear = basis.responses.roll_glide
    told = ROLL_WATCH * (linear.base + float(guess @ linear.slopes))
    assert told == pytest.approx(flown, abs=0.05 + 0.2 * abs(flown))
