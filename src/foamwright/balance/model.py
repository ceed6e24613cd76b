"""What balance/ answers."""

from dataclasses import dataclass

from foamwright.core.bands import Band
from foamwright.shape.model import Vector


@dataclass(frozen=True, slots=True)
class MassLine:
    """One line of the mass table.

    Attributes:
        id: Part or item id.
        name: In trade words.
        mass: [kg]
        at: Its centre of gravity. [m]
        cg_shift: How far it moves the plane's CG aft (with it less without it). [m]
    """

    id: str
    name: str
    mass: Band
    at: Vector
    cg_shift: float


@dataclass(frozen=True, slots=True)
class Balance:
    """Mass properties, pack where the design puts it.

    Attributes:
        all_up_mass: Pack in. [kg]
        mass_band: Low / typical / high of the same. [kg]
        airframe_mass: Cut parts and glue. [kg]
        cg: Centre of gravity. [m]
        cg_x_band: Low (forward) / typical / high (aft) of its x. [m]
        inertia: Moments about the CG: (roll, pitch, yaw). [kg m²]
        inertia_xz: Product of inertia. [kg m²]
        lines: Mass table, heaviest first.
        pack_front: Foremost place of the pack's middle that the tray allows. [m]
        pack_back: Rearmost such place. [m]
        cg_front: CG with the pack at the front of its tray. [m]
        cg_back: CG with the pack at the back of its tray. [m]
    """

    all_up_mass: float
    mass_band: Band
    airframe_mass: float
    cg: Vector
    cg_x_band: Band
    inertia: Vector
    inertia_xz: float
    lines: tuple[MassLine, ...]
    pack_front: float
    pack_back: float
    cg_front: float
    cg_back: float
