"""How the shear stress of the turbulent layer follows its equilibrium, linearised along lanes."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_closures import first_shear, lag_rate, turbulent_relations
from foamwright.aero.coupled_known import Block, Known, Slope, logs_of

type Array = NDArray[np.float64]

NEAR, FAR = slice(0, -1), slice(1, None)  # ends of all intervals
LEAST_SHARE = 1e-9  # turbulent share below which nothing is turbulent yet
BOLDEST = 0.5  # change of ln of the shear's root over an interval by the pressure gradient


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


def slopes_at(slope: Slope, rows: slice) -> tuple[Array, Array, Array]:
    """Slopes along tau, mass defect and speed at one end of the intervals.

    Args:
        slope: At the stations.
        rows: NEAR or FAR.

    Returns:
        The three. [any]

    Source:
        Definition.

    Example:
        >>> slopes_at(slope, FAR)[0].shape  # doctest: +SKIP
        (96, 2)
    """
    return slope.tau[rows], slope.mass[rows], slope.speed[rows]


def _old_share(mix: Array) -> Array:
    """Part of the turbulent layer at the far ends that was turbulent at the near ends."""
    whole = np.maximum(mix[1:], LEAST_SHARE)
    return np.where(mix[1:] > LEAST_SHARE, mix[:-1] / whole, 0.0)


def _drawn(block: Block, pull: Array) -> tuple[Array, NDArray[np.bool_]]:
    """Factor on the shear's root by the pressure gradient, and where it is not held."""
    by = pull * block.step[1:] - np.log(block.speed[1:] / block.speed[:-1])
    return np.exp(np.clip(by, -BOLDEST, BOLDEST)), np.abs(by) < BOLDEST


def shear_roots(block: Block, mix: Array, start: Array | None) -> Array:
    """Root of the shear stress along the lanes: it follows equilibrium with a lag.

    What has just turned turbulent begins with its own shear; what was turbulent keeps the lagged.

    Args:
        block: The state.
        mix: Turbulent share. [-]
        start: Root at the first station of a wake; None elsewhere. [-]

    Returns:
        Roots at the stations. [-]

    Source:
        Green, Weeks & Brooman 1973; Drela 1989 (from memory); mixing by share assumed.

    Example:
        >>> shear_roots(block, mix, None).shape == mix.shape  # doctest: +SKIP
        True
    """
    log_shape, reynolds = logs_of(block)
    shape, inverse = np.exp(log_shape), np.exp(-block.tau)
    layer = turbulent_relations(shape, reynolds, wake=block.forced is None)
    first = first_shear(shape, layer.equilibrium)
    rate = lag_rate(shape, layer.slip) * block.step * inverse
    drawn, _ = _drawn(block, layer.pull[1:] * inverse[1:])
    old, pushed = _old_share(mix), 1.0 + rate * layer.equilibrium
    root = first.copy() if start is None else np.tile(start, (len(first), 1))
    for j in range(1, len(root)):
        before = root[j - 1]
        lagged = before * pushed[j] / (1.0 + rate[j] * before) * drawn[j - 1]
        root[j] = first[j] + old[j - 1] * (lagged - first[j])
    return root


def shear_line(
    block: Block,
    known: Known,
    share: tuple[Array, Array],
    *,
    root: Array,
    exponent: Line | None,
) -> Line:
    """The relation of `shear_roots` linearised.

    Args:
        block: The state.
        known: Closure relations there.
        share: Turbulent share and its slope along the exponent. [-]
        root: From `shear_roots`. [-]
        exponent: Line of the exponent; None in a wake.

    Returns:
        The line.

    Source:
        Derivatives of `shear_roots`.

    Example:
        >>> shear_line(block, known, share, root=root, exponent=None).rest.any()  # doctest: +SKIP
        False
    """
    mix, slope = share
    before, old, step = root[:-1], _old_share(mix), block.step[1:]
    first = known.first.value[1:]
    rate, level = known.rate.value[1:] * step, known.equilibrium.value[1:]
    under = 1.0 + rate * before
    drawn, free = _drawn(block, known.pull.value[1:])
    lagged = before * (1.0 + rate * level) / under * drawn
    parts: list[Array] = []
    for k, (begin, own, turn, pull) in enumerate(
        zip(
            *(slopes_at(s, FAR) for s in (known.first, known.equilibrium, known.rate, known.pull)),
            strict=True,
        )
    ):
        moved = before / under * (rate * own + level * turn * step) * drawn
        moved -= lagged / under * before * turn * step
        drawing = pull * step - (1.0 / block.speed[1:] if k == 2 else 0.0)
        moved += lagged * np.where(free, drawing, 0.0)
        parts.append(begin + old * (moved - begin))
    over = (lagged - first) / np.maximum(mix[1:], LEAST_SHARE)
    aft = np.zeros_like(before) if exponent is None else -over * old * slope[1:]
    none = np.zeros_like(before)
    line = exponent or Line(none, none, none, none, none, none, none, none, none)
    return Line(
        rest=none,
        tau=parts[0] + aft * line.tau,
        mass=parts[1] + aft * line.mass,
        speed=parts[2] + aft * line.speed,
        before_speed=aft * line.before_speed + old * lagged * free / block.speed[:-1],
        before_mass=aft * line.before_mass,
        before_tau=aft * line.before_tau,
        before_exponent=aft * line.before_exponent + over * slope[:-1],
        before_shear=old * (1.0 + rate * level) / under**2 * drawn,
    )
