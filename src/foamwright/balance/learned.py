"""Mass and CG as the scale and the finger tips showed them, put into the computed result."""

from dataclasses import replace

from foamwright.balance.model import Balance
from foamwright.core.bands import Band


def with_weighed(balance: Balance, mass: float, *, cg_shift: float) -> Balance:
    """The same plane with the mass and the CG that were found on the version before.

    The mass is spread as the plane's own is: moments of inertia grow with it.

    Args:
        balance: As computed from the parts list. [-]
        mass: Beyond the parts list. [kg]
        cg_shift: Of the CG, aft. [m]

    Returns:
        Mass properties after it.

    Source:
        Definition.

    Example:
        >>> round(with_weighed(balance, 0.02, cg_shift=0.0).all_up_mass - balance.all_up_mass, 6)
        0.02
    """
    if mass == 0.0 and cg_shift == 0.0:
        return balance
    total = balance.all_up_mass + mass
    ratio = total / balance.all_up_mass
    x, y, z = balance.cg
    roll, pitch, yaw = balance.inertia
    return replace(
        balance,
        all_up_mass=total,
        mass_band=_moved(balance.mass_band, mass),
        cg=(x + cg_shift, y, z),
        cg_x_band=_moved(balance.cg_x_band, cg_shift),
        inertia=(ratio * roll, ratio * pitch, ratio * yaw),
        inertia_xz=ratio * balance.inertia_xz,
        cg_front=balance.cg_front + cg_shift,
        cg_back=balance.cg_back + cg_shift,
    )


def _moved(band: Band, by: float) -> Band:
    return Band(band.low + by, band.typical + by, band.high + by, band.source)
