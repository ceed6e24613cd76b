"""The five natural motions of a plane."""

import cmath
import math
from collections.abc import Sequence

import numpy as np

from foamwright.core.air import GRAVITY
from foamwright.flight.model import Mode
from foamwright.flight.motion import (
    Condition,
    LateralDerivatives,
    LongitudinalDerivatives,
    Matrix,
    lateral_matrix,
    longitudinal_matrix,
)

STILL = 1e-9  # 1/s, below this an eigenvalue counts as zero
NEVER = 1e9  # s, time to half or double of a motion that neither dies nor grows


def modes_from_derivatives(
    condition: Condition, longitudinal: LongitudinalDerivatives, lateral: LateralDerivatives
) -> tuple[Mode, ...]:
    """The five natural motions from dimensionless derivatives and inertia.

    Args:
        condition: The plane and its steady flight. [-]
        longitudinal: Derivatives in stability axes. [-]
        lateral: Derivatives in stability axes. [-]

    Returns:
        Short period, phugoid, Dutch roll, roll, spiral.

    Valid:
        Small motions of a rigid plane in still air.

    Source:
        [ETKIN-REID] ch. 6; [NELSON] ch. 4 and 5; reproduced in tests/validation/test_modes.py.

    Example:
        >>> modes_from_derivatives(condition, longitudinal, lateral)[0].name  # doctest: +SKIP
        'short period'
    """
    return (
        *longitudinal_modes(longitudinal_matrix(condition, longitudinal)),
        *lateral_modes(lateral_matrix(condition, lateral)),
    )


def longitudinal_modes(matrix: Matrix) -> tuple[Mode, Mode]:
    """Short period and phugoid of a longitudinal state matrix.

    The two eigenvalues of larger magnitude make the short period, the others the phugoid.

    Args:
        matrix: Of (u, w, q, theta). [SI]

    Returns:
        Short period, phugoid.

    Source:
        [ETKIN-REID] sec. 6.2.

    Example:
        >>> longitudinal_modes(matrix)[1].period  # doctest: +SKIP
        29.5
    """
    values = sorted(_eigenvalues(matrix), key=lambda value: (-abs(value), value.imag))
    if abs(values[1] - values[2].conjugate()) < STILL < abs(values[1].imag):
        # a pair straddles the middle: keep it together and put the two lone roots together
        pair, lone = values[1:3], [values[0], values[3]]
        fast = abs(pair[0]) ** 2 >= abs(lone[0] * lone[1])
        values = [*pair, *lone] if fast else [*lone, *pair]
    return _pair("short period", values[:2]), _pair("phugoid", values[2:])


def lateral_modes(matrix: Matrix) -> tuple[Mode, Mode, Mode]:
    """Dutch roll, roll and spiral of a lateral state matrix.

    The fastest swinging pair is the Dutch roll; of the two that are left the one of larger
    magnitude is the roll motion, the other the spiral.

    Args:
        matrix: Of (v, p, r, phi). [SI]

    Returns:
        Dutch roll, roll, spiral.

    Source:
        [ETKIN-REID] sec. 6.7.

    Example:
        >>> lateral_modes(matrix)[1].real  # doctest: +SKIP
        -16.1
    """
    values = _eigenvalues(matrix)
    swinging = sorted((v for v in values if abs(v.imag) > STILL), key=lambda v: -abs(v.imag))
    if swinging:
        pair = swinging[:2]
        rest = sorted((v for v in values if v not in pair), key=lambda v: -abs(v))
    else:
        ranked = sorted(values, key=lambda v: -abs(v))
        pair, rest = ranked[1:3], [ranked[0], ranked[3]]
    return _pair("Dutch roll", pair), _single("roll", rest[0]), _single("spiral", rest[1])


def lanchester_period(speed: float) -> float:
    """Period of the phugoid of a plane without drag that keeps its angle of attack.

    T = sqrt(2) pi V / g.

    Args:
        speed: True airspeed. [m/s]

    Returns:
        Period. [s]

    Valid:
        A first estimate; off by some 10 to 20 % where the pitch motion is not much faster.

    Source:
        Lanchester 1908, as quoted in [ETKIN-REID] sec. 6.3.

    Example:
        >>> round(lanchester_period(10.0), 2)
        4.53
    """
    return math.sqrt(2.0) * math.pi * speed / GRAVITY


def _eigenvalues(matrix: Matrix) -> list[complex]:
    return [complex(value) for value in np.linalg.eigvals(matrix)]


def _pair(name: str, values: Sequence[complex]) -> Mode:
    """A motion of two eigenvalues: a swinging pair, or two lone roots, the slower counting."""
    first, second = values[0], values[1]
    apart = abs(first - second.conjugate())
    if abs(first.imag) > STILL and apart < 1e-6 * max(abs(first), STILL):
        return _mode(name, complex(first.real, abs(first.imag)))
    slow = max(first, second, key=lambda value: value.real)
    product = (first * second).real
    if slow.real >= 0.0 or product <= 0.0:
        damping = -1.0 if slow.real > STILL else 0.0
    else:
        damping = -(first + second).real / (2.0 * abs(cmath.sqrt(product)))
    return _mode(name, slow, damping=damping)


def _single(name: str, value: complex) -> Mode:
    return _mode(name, complex(value.real, abs(value.imag)))


def _mode(name: str, value: complex, *, damping: float | None = None) -> Mode:
    swings = abs(value.imag) > STILL
    if damping is None:
        damping = -value.real / abs(value) if abs(value) > STILL else 0.0
    half = -math.log(2.0) / value.real if abs(value.real) > STILL else NEVER
    return Mode(
        name=name,
        real=value.real,
        imag=value.imag if swings else 0.0,
        damping=damping,
        period=2.0 * math.pi / abs(value.imag) if swings else None,
        time_to_half=half if value.real < 0.0 or half == NEVER else -abs(half),
        feel=_feel(name, value, damping),
    )


def _feel(name: str, value: complex, damping: float) -> str:
    """Words on how a motion feels at the sticks; thresholds are judgement, common practice."""
    growing = value.real > STILL
    double = math.log(2.0) / value.real if growing else NEVER
    if name == "spiral":
        if not growing:
            return "levels itself after a bank, slowly"
        return (
            "a bank left alone tightens within seconds"
            if double < 4.0
            else "a bank left alone tightens slowly; easily held"
        )
    if name == "roll":
        return "rolls on by itself" if growing else "roll stops soon after the stick is centred"
    if name == "phugoid":
        return _phugoid_feel(growing, damping)
    if name == "short period":
        if growing:
            return "pitch runs away: not flyable by hand"
        return "nose settles at once" if damping > 0.3 else "nose bobs after a gust"
    if growing:
        return "tail wags wider and wider"
    return "tail stays quiet" if damping > 0.2 else "tail wags after a gust and dies out"


def _phugoid_feel(growing: bool, damping: float) -> str:
    if growing:
        return "slow waves grow unless the pilot stops them"
    if damping < 0.1:
        return "long slow waves of speed and height; easily stopped by hand"
    return "slow waves die out by themselves"
