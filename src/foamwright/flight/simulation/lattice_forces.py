"""The aerodynamics room's lattice as matrices in body axes: forces of attached flow."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.setting import Setting

type Array = NDArray[np.float64]

# Unit motion that each cause follows: velocity ahead, right, down; roll, pitch, yaw rate.
_MOTION = {"alpha": 2, "beta": 1, "roll": 3, "pitch": 4, "yaw": 5, "yaw_twist": 5, "yaw_camber": 5}
_FLIP = np.array([-1.0, 1.0, -1.0, -1.0, 1.0, -1.0])  # design axes to body axes


@dataclass(frozen=True, slots=True)
class LatticeForces:
    """Attached flow on all surfaces; motion is that of the datum (the nose), body axes.

    Attributes:
        cross: (6, case): strength of each unit case from motion. [-]
        axial: (case): strength per speed ahead, controls neutral. [-]
        controls: (4, case): strength per speed ahead and radian of aileron (right down), elevator,
            rudder, and of nothing. [-]
        turning: Index of the case that goes with yaw rate times angle of attack. [-]
        base: (case, surface x 6): force and moment about the datum from the stream ahead. [m²]
        own: (case, surface x 6): the same where surface and cause are one. [m²]
        rest: (case, 30): from the other five streams. [m²]
        upright: (6): force and moment about the datum of the fin (or V-tail) per speed to the right
            and stream ahead. [m²]
        yaw: (case, case): yawing moment of unequal induced drag. [m³]
    """

    cross: Array
    axial: Array
    controls: Array
    turning: int
    base: Array
    own: Array
    rest: Array
    upright: Array
    yaw: Array


def lattice_forces(setting: Setting) -> LatticeForces:
    """Matrices of the aerodynamics room's unit solutions, real slopes and losses in.

    Args:
        setting: The plane as the aerodynamics room sees it. [-]

    Returns:
        The matrices.

    Valid:
        As foamwright.aero.response.

    Source:
        foamwright.aero.response, rewritten from unit speed to velocities.

    Example:
        >>> lattice_forces(setting).rest.shape[1]  # doctest: +SKIP
        30
    """
    response, solution = setting.response, setting.response.solution
    cases = solution.cases
    cross, axial, controls = (
        np.zeros((6, len(cases))),
        np.zeros(len(cases)),
        np.zeros((4, len(cases))),
    )
    names = {"aileron": 0, "elevator": 1, "rudder": 2}
    turning = -1
    for index, case in enumerate(cases):
        if case.cause == "twist":
            axial[index] = 1.0
        elif case.cause == "camber":
            axial[index] = setting.camber
        elif case.cause == "yaw_alpha":
            turning = index
        elif case.cause in names:
            controls[names[case.cause], index] = setting.loss(case.cause)
        else:
            factor = setting.camber if case.cause == "yaw_camber" else 1.0
            cross[_MOTION[case.cause], index] = factor
    table = response.forces * _FLIP
    surfaces = table.shape[2]
    source = np.array([case.surface for case in cases])
    base = table[:, 0]
    mine = source[:, None] == np.arange(surfaces)[None, :]
    # streams after the first: alpha (down), beta (right), roll, pitch, yaw
    rest = table[:, 1:].sum(axis=2)
    return LatticeForces(
        cross=cross,
        axial=axial,
        controls=controls,
        turning=turning,
        base=base.reshape(len(cases), -1),
        own=(base * mine[:, :, None]).reshape(len(cases), -1),
        rest=rest.reshape(len(cases), 30),
        upright=base[solution.select("beta", surfaces - 1)[0], surfaces - 1],
        yaw=_trefftz_yaw(setting),
    )


def _trefftz_yaw(setting: Setting) -> Array:
    """Half-density form: N = rho/2 A' Q A."""
    response, solution = setting.response, setting.response.solution
    strips = solution.mesh.strips
    alike = np.array([case.symmetric for case in solution.cases])
    gain = response.gains[np.array([case.surface for case in solution.cases])]
    sided = strips.middle[:, 0] > 1e-9
    table = 4.0 * (solution.drag @ np.where(sided, strips.middle[:, 0], 0.0))
    table = np.where(np.equal.outer(alike, alike), 0.0, table)
    return np.asarray(table * gain[:, None] * gain[None, :])


def attached_forces(
    lattice: LatticeForces, motion: Array, turns: Array, *, jet: Array
) -> tuple[Array, Array]:
    """Force and moment of attached flow about the datum, per density.

    F = sum over cases and streams of strength times stream; the part of a surface in the slipstream
    sees the faster stream ahead, but the same motion across.

    Args:
        lattice: The matrices. [-]
        motion: Of the datum through the air: velocity and rates, (n, 6). [m/s], [rad/s]
        turns: Aileron, elevator, rudder and zero, worked, (n, 4). [rad]
        jet: Mean stream ahead on each surface, and mean of its square, (n, surface, 2).
            [m/s], [m²/s²]

    Returns:
        (n, 6) force and moment over density [m⁴/s²], and yawing moment of unequal induced drag
        over density.

    Source:
        Kutta-Joukowski; foamwright.aero.response.

    Example:
        >>> attached_forces(lattice, motion, turns, jet=jet)  # doctest: +SKIP
    """
    ahead = motion[:, 0:1]
    own = lattice.axial + turns @ lattice.controls
    strength = motion @ lattice.cross + own * ahead
    if lattice.turning >= 0:
        safe = np.where(np.abs(ahead[:, 0]) > 1.0, ahead[:, 0], np.copysign(1.0, ahead[:, 0]))
        strength[:, lattice.turning] += motion[:, 5] * motion[:, 2] / safe
    rest = (strength @ lattice.rest).reshape(-1, 5, 6)
    streams = motion[:, (2, 1, 3, 4, 5), None]
    total = (rest * streams).sum(axis=1)
    mean, square = jet[:, :, 0], jet[:, :, 1]
    for force, factor in (
        (strength @ lattice.base, mean),
        (own @ lattice.own, square - ahead * mean),
    ):
        total += (force.reshape(len(motion), -1, 6) * factor[:, :, None]).sum(axis=1)
    return total, 0.5 * ((strength @ lattice.yaw) * strength).sum(axis=1)
