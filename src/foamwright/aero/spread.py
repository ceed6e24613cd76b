"""How far the section model lay from published measurements, told with each answer."""

from dataclasses import dataclass

from foamwright.aero.model import SectionPolar
from foamwright.aero.sections import LARGEST, SMALLEST

# Upper Reynolds number of a band; lift, zero-lift angle, largest lift, drag: somewhat more than the
# root-mean-square differences from all tunnel figures of Clark-Y, a 6.7 % thin cambered section and
# SD7003 [UIUC-1], [UIUC-3], for few constants were fitted to them.
BANDS = (
    (80e3, 0.050, 0.0075, 0.085, 0.19),
    (150e3, 0.045, 0.0065, 0.08, 0.14),
    (400e3, 0.040, 0.0060, 0.07, 0.10),
)
OUTSIDE = 2.0  # times as much where nothing was compared; assumed


@dataclass(frozen=True, slots=True)
class SectionSpread:
    """One standard deviation of each figure of a section.

    Attributes:
        lift: In the linear range. [-]
        zero_lift_angle: [rad]
        lift_max: [-]
        drag_ratio: Relative, lift 0.2 to 0.9 of the largest. [-]
        compared: Whether section and Reynolds number lie in the range compared with measurements.
        words: One sentence.
    """

    lift: float
    zero_lift_angle: float
    lift_max: float
    drag_ratio: float
    compared: bool
    words: str


def section_spread(polar: SectionPolar, reynolds: float) -> SectionSpread:
    """Uncertainty of a section's figures at one Reynolds number.

    Args:
        polar: The table.
        reynolds: On chord. [-]

    Returns:
        One standard deviation; twice as much outside the range compared.

    Valid:
        Smooth outlines; creases, steps and blunt edges add drag that was never measured here.

    Source:
        Differences from [UIUC-1] and [UIUC-3]; see docs/physics/aero.md.

    Example:
        >>> section_spread(polar, 2e5).lift_max  # doctest: +SKIP
        0.08
    """
    band = next((b for b in BANDS if reynolds <= b[0]), BANDS[-1])
    compared = polar.validated and SMALLEST <= reynolds <= LARGEST
    more = 1.0 if compared else OUTSIDE
    lift, zero, most, drag = (more * value for value in band[1:])
    where = (
        "from differences to tunnel measurements"
        if compared
        else "twice the differences to tunnel measurements, for nothing was compared here"
    )
    words = f"lift +-{lift:.2f}, largest lift +-{most:.2f}, drag +-{100.0 * drag:.0f} %: {where}"
    return SectionSpread(lift, zero, most, drag, compared, words)
