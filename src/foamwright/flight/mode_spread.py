"""How far the natural motions may be off, from how far the derivatives may be."""

from collections.abc import Mapping, Sequence
from dataclasses import fields, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.doubts import PREDICTION
from foamwright.flight.model import Mode
from foamwright.flight.motion import (
    Condition,
    LateralDerivatives,
    LongitudinalDerivatives,
    Matrix,
    lateral_matrix,
    longitudinal_matrix,
)

# Of derivatives along the path, from those of lift, drag and moment.
ALONG_PATH = {
    "axial_speed": 0.20,  # [ROSKAM-DYN], as CD_u
    "axial_alpha": PREDICTION["drag_alpha"],
    "normal_speed": 0.20,  # [ROSKAM-DYN], as CL_u
    "normal_alpha": PREDICTION["lift_alpha"],
    "normal_pitch_rate": PREDICTION["lift_pitch_rate"],
    "normal_alpha_rate": PREDICTION["pitch_alpha_rate"],
    "pitch_speed": 0.20,  # [ROSKAM-DYN], as Cm_u
}
STEP = 1e-3  # of a doubt; the matrices are all but linear in the derivatives
APART = 1e-6  # 1/s, eigenvalues closer than this have no first-order doubt


def with_spread(
    modes: Sequence[Mode],
    condition: Condition,
    longitudinal: LongitudinalDerivatives,
    lateral: LateralDerivatives,
    *,
    doubts: Mapping[str, float] | None = None,
) -> tuple[Mode, ...]:
    """The same motions with one standard deviation of their eigenvalues.

    First order: d lambda = (V^-1 dA V) on the diagonal, one dA a derivative, squares added.

    Args:
        modes: As `modes_from_derivatives` gives them.
        condition: The plane and its steady flight. [-]
        longitudinal: Derivatives in stability axes. [-]
        lateral: Derivatives in stability axes. [-]
        doubts: Derivative name -> standard deviation; those not named take the usual accuracy of
            derivatives worked out from a drawing. [-]

    Returns:
        The motions with `real_spread` and `imag_spread`; None where two roots all but meet.

    Valid:
        Doubts small enough that roots do not change their kind; independent of one another.

    Source:
        First-order perturbation of eigenvalues, any text on matrices; [ROSKAM-DYN] for the doubts.

    Example:
        >>> with_spread(modes, condition, longitudinal, lateral)[3].real_spread  # doctest: +SKIP
        1.5
    """
    known = doubts or {}
    shares = {**PREDICTION, **ALONG_PATH}

    def steps(table: LongitudinalDerivatives | LateralDerivatives) -> dict[str, float]:
        found = {f.name: float(getattr(table, f.name)) for f in fields(table)}
        usual = {name: shares[name] * abs(value) for name, value in found.items()}
        return {name: known.get(name, doubt) for name, doubt in usual.items()}

    def longways(table: LongitudinalDerivatives) -> Matrix:
        return longitudinal_matrix(condition, table)

    def sideways(table: LateralDerivatives) -> Matrix:
        return lateral_matrix(condition, table)

    along = _moved(longways(longitudinal), [
        (longways(replace(longitudinal, **{name: getattr(longitudinal, name) + STEP * step})))
        for name, step in steps(longitudinal).items()
    ])  # fmt: skip
    across = _moved(sideways(lateral), [
        (sideways(replace(lateral, **{name: getattr(lateral, name) + STEP * step})))
        for name, step in steps(lateral).items()
    ])  # fmt: skip
    return tuple(
        _told(mode, *(along if mode.name in ("short period", "phugoid") else across))
        for mode in modes
    )


type Roots = tuple[NDArray[np.complex128], NDArray[np.complex128]]


def _moved(matrix: Matrix, others: list[Matrix]) -> Roots:
    """Eigenvalues and their deviation, real and imaginary parts apart."""
    values, vectors = np.linalg.eig(matrix)
    apart = np.abs(values[:, None] - values[None, :]) + np.eye(len(values))
    if apart.min() < APART:
        return values.astype(complex), np.full(len(values), np.nan + 0j)
    changes = (np.array(others) - matrix) / STEP
    turned = np.linalg.solve(vectors[None], changes @ vectors)
    shifts = np.diagonal(turned, axis1=1, axis2=2)
    spread = np.sqrt((shifts.real**2).sum(axis=0)) + 1j * np.sqrt((shifts.imag**2).sum(axis=0))
    return values.astype(complex), spread


def _told(mode: Mode, values: NDArray[np.complex128], spread: NDArray[np.complex128]) -> Mode:
    near = int(np.abs(values - complex(mode.real, mode.imag)).argmin())
    found = complex(spread[near])
    if not np.isfinite(found.real):
        return mode
    imag_spread = found.imag if mode.imag else 0.0
    return replace(mode, real_spread=found.real, imag_spread=imag_spread)
