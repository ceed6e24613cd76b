"""The two-equation layer along lanes of stations, linearised for Newton's method.

Arrays run (station, lane). The unknowns at a station are the mass defect m, the logarithm tau of
the momentum thickness, the amplification exponent n and the root c of the shear stress. Each
interval gives tau, n and c at its far end, and one equation that is left, as lines in the speed and
mass defect at both ends and in what came before.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_known import Block, Known, Slope, growth_of, known_at
from foamwright.aero.coupled_shear import (
    FAR,
    NEAR,
    Line,
    shear_line,
    shear_roots,
    slopes_at,
)

type Array = NDArray[np.float64]

CRITICAL = 9.0  # amplification exponent at transition; quiet tunnel, common practice
SPREAD = 2.0  # exponents over which a layer turns turbulent, half before and half after; assumed
ONWARD = 0.05  # growth theta dn/ds of the exponent of a layer that is turbulent; assumed
AFT = 0.7  # weight of an interval's far end; assumed, damps what Newton leaves between stations


@dataclass(frozen=True, slots=True)
class Lines:
    """All relations of a block.

    Attributes:
        tau: Gives tau at the far end.
        left: The equation that is left; zero when solved.
        exponent: Gives the exponent; None in a wake.
        shear: Gives the shear.
        root: c at the stations. [-]
        turbulent: Share turbulent at the stations by its own exponent, 0 to 1. [-]
        shape: H. [-]
    """

    tau: Line
    left: Line
    exponent: Line | None
    shear: Line
    root: Array
    turbulent: Array
    shape: Array


@dataclass(frozen=True, slots=True)
class _Turning:
    """Where the layer turns turbulent: share, its slope along the exponent, share by itself.

    The last two are what turbulence adds to the exponent, and that along the exponent before.
    """

    share: Array
    slope: Array
    ramp: Array
    added: Array
    added_slope: Array


def _turning(growth: Slope, block: Block) -> _Turning:
    """Turbulent share along the lanes; once begun, the exponent goes on rising by itself."""
    rise = 0.5 * (growth.value[1:] + growth.value[:-1]) * block.step[1:]
    own = ONWARD / SPREAD * block.step[1:] * np.exp(-block.tau[1:])
    begin = CRITICAL - 0.5 * SPREAD
    exponent = np.zeros_like(growth.value)
    for j, here in enumerate(exponent[:-1]):
        exponent[j + 1] = here + rise[j] + own[j] * np.clip(here - begin, 0.0, SPREAD)
    over = np.clip(exponent - begin, 0.0, SPREAD)
    ramp = over / SPREAD
    share = ramp * ramp * (3.0 - 2.0 * ramp)
    forced = np.zeros_like(share) if block.forced is None else block.forced
    whole = np.maximum.accumulate(np.maximum(share, forced), axis=0)
    slope = np.where(whole <= share + 1e-12, 6.0 * ramp * (1.0 - ramp) / SPREAD, 0.0)
    begun = (over[:-1] > 0.0) & (over[:-1] < SPREAD)
    return _Turning(whole, slope, ramp, own * over[:-1], own * begun)


def _exponent_line(block: Block, growth: Slope, turning: _Turning) -> Line:
    half = 0.5 * block.step[1:]
    far, near = slopes_at(growth, FAR), slopes_at(growth, NEAR)
    return Line(
        rest=np.zeros_like(half),
        tau=half * far[0] - turning.added,
        mass=half * far[1],
        speed=half * far[2],
        before_tau=half * near[0],
        before_mass=half * near[1],
        before_speed=half * near[2],
        before_exponent=1.0 + turning.added_slope,
        before_shear=np.zeros_like(half),
    )


type _Side = tuple[Array, Array, Array, Array, Array]


@dataclass(frozen=True, slots=True)
class _Equation:
    """One equation before elimination: rest, and (tau, mass, speed, exponent, shear) a side."""

    rest: Array
    near: _Side
    far: _Side


def _equations(block: Block, known: Known, slope: Array) -> tuple[_Equation, _Equation]:
    """Momentum and energy: d tau + (H + 2) d ln U = ..., d ln H* + (1 - H) d ln U = ..."""
    step, none = block.step[1:], np.zeros_like(block.step[1:])
    gain = np.log(block.speed[1:] / block.speed[:-1])
    middle = 0.5 * (known.shape.value[1:] + known.shape.value[:-1])
    sides: list[tuple[_Side, _Side]] = []
    for rows, weight, sign in ((NEAR, 1.0 - AFT, -1.0), (FAR, AFT, 1.0)):
        share = step * weight
        bend = [0.5 * v * gain for v in slopes_at(known.shape, rows)]
        rub, loss, energy = (slopes_at(v, rows) for v in (known.friction, known.loss, known.energy))
        inverse, along = sign / block.speed[rows], slope[rows]
        first: _Side = (
            bend[0] - share * rub[0] + sign,
            bend[1] - share * rub[1],
            bend[2] - share * rub[2] + (middle + 2.0) * inverse,
            -share * known.friction_mix[rows] * along,
            none,
        )
        second: _Side = (
            sign * energy[0] - bend[0] - share * loss[0],
            sign * energy[1] - bend[1] - share * loss[1],
            sign * energy[2] - bend[2] - share * loss[2] + (1.0 - middle) * inverse,
            (sign * known.energy_mix[rows] - share * known.loss_mix[rows]) * along,
            -share * known.loss_shear[rows],
        )
        sides.append((first, second))
    rub, loss = known.friction.value, known.loss.value
    momentum = np.diff(block.tau, axis=0) + (middle + 2.0) * gain
    momentum -= step * ((1.0 - AFT) * rub[:-1] + AFT * rub[1:])
    energy_rest = np.diff(known.energy.value, axis=0) + (1.0 - middle) * gain
    energy_rest -= step * ((1.0 - AFT) * loss[:-1] + AFT * loss[1:])
    (near, far) = sides
    return (
        _Equation(momentum, near[0], far[0]),
        _Equation(energy_rest, near[1], far[1]),
    )


def _folded(equation: _Equation, exponent: Line | None, shear: Line) -> Line:
    """The far end's exponent and shear put in."""
    far, near = equation.far, equation.near
    tau, mass, speed = (
        far[0] + far[4] * shear.tau,
        far[1] + far[4] * shear.mass,
        far[2] + far[4] * shear.speed,
    )
    before = [near[0], near[1], near[2]]
    along = near[3]
    if exponent is not None:
        tau, mass, speed = (
            tau + far[3] * exponent.tau,
            mass + far[3] * exponent.mass,
            speed + far[3] * exponent.speed,
        )
        pieces = (exponent.before_tau, exponent.before_mass, exponent.before_speed)
        before = [own + far[3] * more for own, more in zip(before, pieces, strict=True)]
        along = near[3] + far[3] + far[4] * shear.before_exponent
    return Line(
        rest=equation.rest,
        tau=tau,
        mass=mass,
        speed=speed,
        before_tau=before[0],
        before_mass=before[1],
        before_speed=before[2],
        before_exponent=along,
        before_shear=near[4] + far[4] * shear.before_shear,
    )


def _combined(first: Line, second: Line | None, factor: Array) -> Line:
    """Factor times one line, plus another; tau drops out."""

    def of(name: str) -> Array:
        own = factor * getattr(first, name)
        return own if second is None else getattr(second, name) + own

    return Line(
        rest=of("rest"),
        speed=of("speed"),
        mass=of("mass"),
        before_speed=of("before_speed"),
        before_mass=of("before_mass"),
        before_tau=of("before_tau"),
        before_exponent=of("before_exponent"),
        before_shear=of("before_shear"),
        tau=np.zeros_like(factor),
    )


def lines_of(block: Block, start: Array | None = None) -> Lines:
    """Linearise the layer along lanes of stations about its present state.

    Args:
        block: The state.
        start: Root of the shear stress at the first station of a wake; None elsewhere. [-]

    Returns:
        The lines of every interval.

    Source:
        Integral momentum and energy with lagged shear, Drela & Giles 1987 (from memory).

    Example:
        >>> lines_of(block).root.shape == block.tau.shape  # doctest: +SKIP
        True
    """
    if block.forced is None:
        mix, slope = np.ones_like(block.tau), np.zeros_like(block.tau)
        ramp, exponent = mix, None
    else:
        growth = growth_of(block)
        turning = _turning(growth, block)
        mix, slope, ramp = turning.share, turning.slope, turning.ramp
        exponent = _exponent_line(block, growth, turning)
    root = shear_roots(block, mix, start)
    known = known_at(block, mix, root)
    shear = shear_line(block, known, (mix, slope), root=root, exponent=exponent)
    momentum, energy = (_folded(e, exponent, shear) for e in _equations(block, known, slope))
    return Lines(
        tau=_combined(momentum, None, -1.0 / momentum.tau),
        left=_combined(momentum, energy, -energy.tau / momentum.tau),
        exponent=exponent,
        shear=shear,
        root=root,
        turbulent=ramp,
        shape=known.shape.value,
    )
