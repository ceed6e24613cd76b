"""The two-equation layer along lanes of stations, linearised for Newton's method.

Arrays run (station, lane). The unknowns at a station are the mass defect m, the logarithm tau of
the momentum thickness, the amplification exponent n and the root c of the shear stress. Each
interval gives tau, n and c at its far end, and one equation that is left, as lines in the speed and
mass defect at both ends and in what came before.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_closures import first_shear, thickness_ratio, turbulent_relations
from foamwright.aero.coupled_known import Block, Known, Slope, growth_of, known_at, logs_of

type Array = NDArray[np.float64]

CRITICAL = 9.0  # amplification exponent at transition; quiet tunnel, common practice
SPREAD = 2.0  # exponents over which a layer turns turbulent, half before and half after; assumed
LAG = 4.2  # half of it times step over thickness: how fast shear follows equilibrium
AFT = 0.7  # weight of an interval's far end; assumed, damps what Newton leaves between stations


@dataclass(frozen=True, slots=True)
class Line:
    """Coefficients of one linear relation, one an interval and lane. [any] all.

    Attributes:
        rest: What stands without any change.
        speed: On the speed at the far end.
        mass: On the mass defect there.
        before_speed: On the speed at the near end.
        before_mass: On the mass defect there.
        before_tau: On tau there.
        before_exponent: On the exponent there.
        before_shear: On the shear there.
        tau: On tau at the far end.
    """

    rest: Array
    speed: Array
    mass: Array
    before_speed: Array
    before_mass: Array
    before_tau: Array
    before_exponent: Array
    before_shear: Array
    tau: Array


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


def _turbulent_share(growth: Slope, block: Block) -> tuple[Array, Array, Array]:
    """Share turbulent, its slope along the exponent, and the share by the exponent alone."""
    rise = 0.5 * (growth.value[1:] + growth.value[:-1]) * block.step[1:]
    exponent = np.concatenate([np.zeros((1, rise.shape[1])), np.cumsum(rise, axis=0)])
    ramp = np.clip((exponent - CRITICAL) / SPREAD + 0.5, 0.0, 1.0)
    own = ramp * ramp * (3.0 - 2.0 * ramp)
    forced = np.zeros_like(own) if block.forced is None else block.forced
    share = np.maximum.accumulate(np.maximum(own, forced), axis=0)
    slope = np.where(share <= own + 1e-12, 6.0 * ramp * (1.0 - ramp) / SPREAD, 0.0)
    return share, slope, ramp


def _shear(block: Block, mix: Array, start: Array | None) -> Array:
    """Root of the shear stress along the lanes: it follows equilibrium with a lag."""
    log_shape, reynolds = logs_of(block)
    shape = np.exp(log_shape)
    _, _, equilibrium, _ = turbulent_relations(shape, reynolds, wake=block.forced is None)
    first = first_shear(shape, equilibrium)
    rate = 0.5 * LAG * block.step / (np.exp(block.tau) * thickness_ratio(shape))
    root = first.copy() if start is None else np.tile(start, (len(first), 1))
    for j in range(1, len(root)):
        lagged = root[j - 1] * (1.0 + rate[j] * equilibrium[j]) / (1.0 + rate[j] * root[j - 1])
        root[j] = (1.0 - mix[j - 1]) * first[j] + mix[j - 1] * lagged
    return root


def _three(slope: Slope, rows: slice) -> tuple[Array, Array, Array]:
    return slope.tau[rows], slope.mass[rows], slope.speed[rows]


NEAR, FAR = slice(0, -1), slice(1, None)


def _shear_line(block: Block, known: Known, mix: Array, slope: Array, root: Array) -> Line:
    before, share = root[:-1], mix[:-1]
    rate = 0.5 * LAG * block.step[1:] * np.exp(-block.tau[1:]) / known.whole.value[1:]
    level, under = known.equilibrium.value[1:], 1.0 + rate * before
    lagged = before * (1.0 + rate * level) / under
    parts: list[Array] = []
    for k, (first, own, whole) in enumerate(
        zip(
            _three(known.first, FAR),
            _three(known.equilibrium, FAR),
            _three(known.whole, FAR),
            strict=True,
        )
    ):
        turn = -rate * ((1.0 if k == 0 else 0.0) + whole / known.whole.value[1:])
        moved = before / under * (rate * own + level * turn) - lagged / under * before * turn
        parts.append((1.0 - share) * first + share * moved)
    none = np.zeros_like(before)
    return Line(
        rest=none,
        tau=parts[0],
        mass=parts[1],
        speed=parts[2],
        before_speed=none,
        before_mass=none,
        before_tau=none,
        before_exponent=(lagged - known.first.value[1:]) * slope[:-1],
        before_shear=share * (1.0 + rate * level) / under**2,
    )


def _exponent_line(block: Block, growth: Slope) -> Line:
    half = 0.5 * block.step[1:]
    far, near = _three(growth, FAR), _three(growth, NEAR)
    return Line(
        rest=np.zeros_like(half),
        tau=half * far[0],
        mass=half * far[1],
        speed=half * far[2],
        before_tau=half * near[0],
        before_mass=half * near[1],
        before_speed=half * near[2],
        before_exponent=np.ones_like(half),
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
        bend = [0.5 * v * gain for v in _three(known.shape, rows)]
        rub, loss, energy = (_three(v, rows) for v in (known.friction, known.loss, known.energy))
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
        ramp = mix
        exponent = None
    else:
        growth = growth_of(block)
        mix, slope, ramp = _turbulent_share(growth, block)
        exponent = _exponent_line(block, growth)
    root = _shear(block, mix, start)
    known = known_at(block, mix, root)
    shear = _shear_line(block, known, mix, slope, root)
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
