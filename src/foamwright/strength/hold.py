"""What holds the wing on the fuselage: bands, bolts or glue."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.core.air import GRAVITY
from foamwright.design.model import Design
from foamwright.shape.body import root_chord
from foamwright.shape.model import Airframe
from foamwright.stock.model import Stock
from foamwright.strength.cases import Figures
from foamwright.strength.model import LoadCase
from foamwright.strength.rubber import BREAKING_STRETCH, LONGEST_STRETCH, band_pull
from foamwright.strength.wing_joint import glue_tension

type Array = NDArray[np.float64]

DOWEL_AWAY = 0.012  # m from the wing's edge to the dowel; common practice
DOWEL_DROP = 3.0  # board thicknesses from the saddle down to the dowel; common practice
LIFT_PLACE = 0.30  # of the chord: where the lift of a cambered wing lies when it pulls; assumed
RELAXED = 0.9  # pull left after an hour, 5 to 20 % is lost, from memory
NYLON_STRENGTH = 60e6  # Pa, moulded nylon in tension, from memory
THREAD_SHARE = 0.7  # stress area of a metric thread over its full circle, ISO 898 (from memory)
WASHER = 0.020  # m, plate or washer under a bolt's head; common practice
PILE_UP = 2.0  # foam bears at an edge-held washer about twice its plain strength; assumed


@dataclass(frozen=True, slots=True)
class Hold:
    """Load factor at which the wing leaves its seat, with the reason.

    Attributes:
        id: "bands", "bolts" or "attachment".
        name: In trade words.
        limits: Load factor, one a build. [-]
        why: One sentence.
        source: Publication or "assumed".
        notes: What was extrapolated.
        pull: Of all bands on one dowel, one a build; None without bands. [N]
        seat: Force with which the bands press the wing on its seat; None without. [N]
    """

    id: str
    name: str
    limits: Array
    why: str
    source: str
    notes: tuple[str, ...]
    pull: Array | None = None
    seat: Array | None = None


def net_weight(loads: LoadCase) -> Array:
    """Weight that the wing's seat carries for one g: all but the wing's own.

    Args:
        loads: Numbers of the plane. [-]

    Returns:
        Force, one row a build (or one for all). [N]

    Source:
        Statics.

    Example:
        >>> net_weight(loads)  # doctest: +SKIP
        array([[4.4]])
    """
    all_up = np.atleast_2d(loads.mass if loads.masses is None else loads.masses)
    wing = np.atleast_2d(loads.wing_mass if loads.wing_masses is None else loads.wing_masses)
    return np.maximum(all_up - wing, 0.05 * all_up) * GRAVITY


def hold_limit(
    design: Design, airframe: Airframe, stock: Stock, *, figures: Figures, loads: LoadCase
) -> Hold:
    """Load factor at which the wing lifts off its seat.

    Args:
        design: The design. [-]
        airframe: Its shape. [-]
        stock: The stock tables. [-]
        figures: Doubted figures. [-]
        loads: Numbers of the plane. [-]

    Returns:
        The limit with its reason.

    Source:
        Statics; [WOOD] for bands.

    Example:
        >>> hold_limit(design, airframe, stock, figures=f, loads=l).id
        'bands'
    """
    kind = design.wing.attachment.kind
    if kind == "bands":
        return _bands(design, airframe, stock, figures, loads)
    weight = net_weight(loads)
    if kind == "bolts":
        return _bolts(design, figures, weight)
    width = max((s.width for s in airframe.body.stations), default=0.0)
    area = root_chord(design) * width
    strength = glue_tension(figures, design.glue.stock, loads.temperature)
    # The pull peels from the front edge: a third of the plain area's strength counts; assumed.
    limits = (strength * area / 3.0 / weight).ravel()
    why = f"The glued seat of {1e4 * area:.0f}\u00a0cm² peels at "
    f"{limits[0] * weight[0, 0]:.0f}\u00a0N."
    return Hold("attachment", "wing seat peels", limits, why, "assumed", ())


def _bands(
    design: Design, airframe: Airframe, stock: Stock, figures: Figures, loads: LoadCase
) -> Hold:
    hold = design.wing.attachment
    band = stock.bands[hold.band]
    chord, t = root_chord(design), airframe.board_thickness
    drop = DOWEL_DROP * t + 0.5 * airframe.wing.panels[0].section.thickness_ratio * chord
    path = chord + 2.0 * math.hypot(DOWEL_AWAY, drop)
    stretch = path / band.length
    notes: list[str] = []
    weight = net_weight(loads)
    if hold.bands == 0 or stretch <= 1.0:
        word = "There are no bands" if hold.bands == 0 else "The bands hang loose"
        zero = np.zeros(figures.builds)
        return Hold("bands", "rubber bands", zero, f"{word}: nothing holds the wing.", "[WOOD]", ())
    if stretch > LONGEST_STRETCH:
        notes.append(
            f"The bands are stretched to {stretch:.1f} times their length; the law of rubber is "
            f"checked to {LONGEST_STRETCH:.0f} and they tear near {BREAKING_STRETCH:.1f}."
        )
    pull = RELAXED * np.asarray(
        band_pull(
            stretch,
            figures[f"band.{hold.band}.modulus"],
            width=band.width,
            thickness=band.thickness,
        )
    )
    steep = drop / math.hypot(DOWEL_AWAY, drop)
    # About the rear dowel: the front edge lifts first, as the lift lies ahead of the middle.
    between = chord + 2.0 * DOWEL_AWAY
    front_share = 1.0 - (LIFT_PLACE * chord + DOWEL_AWAY) / between
    limits = (hold.bands * pull * steep / (front_share * weight)).ravel()
    torn = stretch > BREAKING_STRETCH
    why = (
        f"{hold.bands} bands stretched {stretch:.1f} times hold the front edge with "
        f"{hold.bands * float(pull[0, 0]) * steep:.0f}\u00a0N; one g lifts it with "
        f"{front_share * weight[0, 0]:.1f}\u00a0N."
    )
    if torn:
        limits, why = np.zeros_like(limits), f"Bands stretched {stretch:.1f} times tear."
    every = hold.bands * pull.ravel()
    return Hold(
        "bands",
        "rubber bands let the front edge lift",
        limits,
        why,
        "[WOOD]",
        tuple(notes),
        pull=every,
        seat=2.0 * steep * every,
    )


def _bolts(design: Design, figures: Figures, weight: Array) -> Hold:
    hold = design.wing.attachment
    digits = "".join(c for c in hold.bolt.split("M")[-1] if c.isdigit() or c == ".")
    size = 1e-3 * float(digits) if digits else 0.004
    nylon = NYLON_STRENGTH * THREAD_SHARE * 0.25 * math.pi * size**2
    foam = PILE_UP * figures["board.core_compressive_strength"] * 0.25 * math.pi * WASHER**2
    # Papers under the washer: punched out along its rim.
    paper = (
        figures["board.paper_tensile_strength"]
        * figures["board.paper_thickness"]
        * math.pi
        * WASHER
        * 0.5
    )
    each = np.minimum(nylon, foam + paper)
    limits = (hold.bolts * each / weight).ravel()
    why = (
        f"{hold.bolts} bolts hold {hold.bolts * float(each[0, 0]):.0f}\u00a0N before a "
        f"{1000 * WASHER:.0f}\u00a0mm washer pulls through or the bolt snaps."
    )
    return Hold("bolts", "wing bolts pull through", limits, why, "assumed", ())
