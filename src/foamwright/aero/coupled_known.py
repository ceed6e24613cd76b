"""Closure relations of the two-equation layer at stations of lanes, with their slopes."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled_closures import (
    first_shear,
    lag_rate,
    laminar_relations,
    smooth_amplification,
    turbulent_relations,
)

type Array = NDArray[np.float64]

SHIFT = 1e-5  # of ln H and ln Re_theta, for slopes


@dataclass(frozen=True, slots=True)
class Slope:
    """A quantity at the stations with its slopes.

    Attributes:
        value: [any]
        tau: [any]
        mass: [any]
        speed: [any]
    """

    value: Array
    tau: Array
    mass: Array
    speed: Array


@dataclass(frozen=True, slots=True)
class Block:
    """The state of lanes of stations.

    Attributes:
        tau: ln of the momentum thickness. [-]
        mass: U delta*, positive. [-]
        speed: Outer speed. [-]
        step: Distance from the station before. [-]
        log_reynolds: ln of the Reynolds number on chord, one a lane. [-]
        forced: Share turbulent by force, 0 to 1; None in a wake. [-]
    """

    tau: Array
    mass: Array
    speed: Array
    step: Array
    log_reynolds: Array
    forced: Array | None


@dataclass(frozen=True, slots=True)
class Known:
    """Closure relations at the stations with their slopes.

    Attributes:
        shape: H. [-]
        energy: Logarithm of H*. [-]
        friction: cf/2 over theta. [1/chord]
        loss: (2 CD/H* - cf/2) over theta. [1/chord]
        equilibrium: Root of the equilibrium shear stress. [-]
        first: Root of the shear stress where a layer turns turbulent. [-]
        pull: Relative growth of the outer speed of a layer in equilibrium. [1/chord]
        rate: How fast the shear follows equilibrium. [1/chord]
        energy_mix: Slope of energy along the turbulent share. [-]
        friction_mix: Of friction. [1/chord]
        loss_mix: Of loss. [1/chord]
        loss_shear: Slope of loss along the root of the shear stress. [1/chord]
    """

    shape: Slope
    energy: Slope
    friction: Slope
    loss: Slope
    equilibrium: Slope
    first: Slope
    pull: Slope
    rate: Slope
    energy_mix: Array
    friction_mix: Array
    loss_mix: Array
    loss_shear: Array


def _slope(block: Block, stacked: Array, *, over_theta: bool = False) -> Slope:
    """Slopes from values at (H, Re), (H', Re), (H, Re'); H = m/(U theta)."""
    value, by_shape, by_reynolds = (
        stacked[0],
        (stacked[1] - stacked[0]) / SHIFT,
        (stacked[2] - stacked[0]) / SHIFT,
    )
    along = by_reynolds - by_shape
    if not over_theta:
        return Slope(value, along, by_shape / block.mass, along / block.speed)
    inverse = np.exp(-block.tau)
    return Slope(
        value * inverse,
        (along - value) * inverse,
        by_shape * inverse / block.mass,
        along * inverse / block.speed,
    )


def logs_of(block: Block) -> tuple[Array, Array]:
    """Logarithms of H and Re_theta, held within what the relations bear.

    Args:
        block: The state.

    Returns:
        Both. [-]

    Source:
        H = m/(U theta).

    Example:
        >>> logs_of(block)[0].shape == block.tau.shape  # doctest: +SKIP
        True
    """
    log_speed, least = np.log(block.speed), 1.0003 if block.forced is None else 1.01
    shape = np.log(block.mass) - log_speed - block.tau
    reynolds = np.maximum(log_speed + block.tau + block.log_reynolds, 0.0)
    return np.clip(shape, np.log(least), np.log(40.0)), reynolds


def _shifted(block: Block) -> tuple[Array, Array]:
    shape, reynolds = logs_of(block)
    return (
        np.exp(np.stack([shape, shape + SHIFT, shape])),
        np.stack([reynolds, reynolds, reynolds + SHIFT]),
    )


def known_at(block: Block, mix: Array, root: Array) -> Known:
    """Closure relations at the stations, laminar and turbulent mixed by the turbulent share.

    Args:
        block: The state.
        mix: Turbulent share. [-]
        root: Root of the shear stress. [-]

    Returns:
        The relations.

    Source:
        coupled_closures.py.

    Example:
        >>> known_at(block, mix, root).shape.value.shape == mix.shape  # doctest: +SKIP
        True
    """
    shape, reynolds = _shifted(block)
    wake = block.forced is None
    layer = turbulent_relations(shape, reynolds, wake=wake)
    friction, slip, energy = layer.friction, layer.slip, layer.energy
    square = root * root
    dissipation = 2.0 * (friction * slip + square * (1.0 - slip)) / energy
    by_shear = 4.0 * root * (1.0 - slip[0]) / energy[0] * mix
    none = np.zeros_like(root)
    if wake:
        dissipation, by_shear = 2.0 * dissipation, 2.0 * by_shear
        mixed, mixed_friction, mixed_loss = energy, friction, dissipation
        parts = (none, none, none)
    else:
        smooth, (rub, loss) = laminar_relations(shape, reynolds)
        mixed = (1.0 - mix) * smooth + mix * energy
        mixed_friction = (1.0 - mix) * rub + mix * friction
        mixed_loss = (1.0 - mix) * loss + mix * dissipation
        more = friction[0] - rub[0]
        parts = ((energy[0] - smooth[0]) / mixed[0], more, dissipation[0] - loss[0] - more)
    inverse = np.exp(-block.tau)
    return Known(
        shape=_slope(block, shape),
        energy=_slope(block, np.log(mixed)),
        friction=_slope(block, mixed_friction, over_theta=True),
        loss=_slope(block, mixed_loss - mixed_friction, over_theta=True),
        equilibrium=_slope(block, layer.equilibrium),
        first=_slope(block, first_shear(shape, layer.equilibrium)),
        pull=_slope(block, layer.pull, over_theta=True),
        rate=_slope(block, lag_rate(shape, slip), over_theta=True),
        energy_mix=parts[0],
        friction_mix=parts[1] * inverse,
        loss_mix=parts[2] * inverse,
        loss_shear=by_shear * inverse,
    )


def growth_of(block: Block) -> Slope:
    """Growth of the amplification exponent along the lanes, dn/ds.

    Args:
        block: The state.

    Returns:
        Growth with its slopes. [1/chord]

    Source:
        `smooth_amplification`.

    Example:
        >>> growth_of(block).value.min() >= 0.0  # doctest: +SKIP
        True
    """
    shape, reynolds = _shifted(block)
    return _slope(block, smooth_amplification(shape, reynolds), over_theta=True)
