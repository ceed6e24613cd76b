"""What the fuselage does to pitch, yaw, side force and drag, strip by strip."""

import math
from dataclasses import dataclass

import numpy as np

from foamwright.aero.second import helmbold_slope
from foamwright.shape.model import Airframe, Body

# Effective over plain aspect ratio of a fin on a body, against fin height over body depth there.
# Read off the handbook's curve (DATCOM 5.3.1.1, from memory), +-0.15; zero height is no fin.
FIN_HEIGHTS = (0.0, 1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 7.0, 10.0)
FIN_RATIOS = (1.0, 1.27, 1.55, 1.54, 1.40, 1.28, 1.19, 1.13, 1.0)
FLAT_BODY = 0.5  # share of that gain which a thin profile body keeps; assumed
SIDE_CROSSFLOW = 0.8  # share of slender-body side force that a square-edged body keeps; assumed


@dataclass(frozen=True, slots=True)
class BodyEffect:
    """Derivatives of the fuselage about the datum, per radian, not made dimensionless.

    Attributes:
        pitch: Pitching moment per dynamic pressure and alpha, nose up. [m³/rad]
        yaw: Yawing moment per dynamic pressure and beta, nose right; about the datum. [m³/rad]
        side: Side force per dynamic pressure and beta, to the right. [m²/rad]
        side_centre: Where that side force acts. [m]
    """

    pitch: float
    yaw: float
    side: float
    side_centre: float


def _fine(body: Body) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Stations, widths and heights at evenly spread places."""
    x = np.array([s.x for s in body.stations])
    width = np.array([s.width for s in body.stations])
    height = np.array([s.top - s.bottom for s in body.stations])
    place = np.linspace(x[0], x[-1], 81)
    return place, np.interp(place, x, width), np.interp(place, x, height)


def body_effect(airframe: Airframe, *, downwash: float) -> BodyEffect:
    """Moments and side force of the fuselage in the wing's flow.

    Pitch (Multhopp): dM/dalpha = q (pi/2) sum w² (1 + d(epsilon)/d(alpha)) dx, with upwash ahead
    of the wing,
    none over the chord, and the downwash's growth behind it. Yaw (Munk): -q (pi/2) integral h²
    dx in
    free stream; the side force follows from the growth of h² over the nose and its loss by
    crossflow.

    Args:
        airframe: The plane.
        downwash: d(downwash)/d(alpha) at the tail. [-]

    Returns:
        The fuselage's derivatives.

    Valid:
        Slender bodies; flat-sided ones by the circle of equal height, no measurement at this size.

    Source:
        Munk; Multhopp, NACA TM 1036; [PERKINS] sec. 5-4.

    Example:
        >>> body_effect(airframe, downwash=0.4).pitch > 0.0  # doctest: +SKIP
        True
    """
    place, width, height = _fine(airframe.body)
    wing, stab = airframe.wing, airframe.stab
    root = wing.panels[0]
    front, back = root.root[0], root.root[0] + root.root_chord
    tail = stab.quarter_chord_x
    ahead = np.maximum(front - place, 1e-6) / root.root_chord
    upwash = np.where(place < front, _upwash(ahead, wing.aspect_ratio), 0.0)
    behind = (1.0 - downwash) * np.clip((place - back) / max(tail - back, 1e-6), 0.0, 1.2)
    local = np.where(place < front, 1.0 + upwash, np.where(place > back, behind, 0.0))
    pitch = 0.5 * math.pi * float(np.trapezoid(width**2 * local, place))
    munk = 0.5 * math.pi * float(np.trapezoid(height**2, place))
    # A square tail end keeps part of the potential side force of its base height.
    base = 0.5 * math.pi * float(height[-1] ** 2)
    flank = float(np.trapezoid(height, place))
    centre = float(np.trapezoid(height * place, place)) / flank
    side = SIDE_CROSSFLOW * 2.0 * base + 0.15 * flank
    return BodyEffect(pitch=pitch, yaw=-munk + side * centre, side=-side, side_centre=centre)


def _upwash(ahead: np.ndarray, aspect_ratio: float) -> np.ndarray:
    """Extra incidence ahead of a wing by its bound vortex, a/(4 pi) over distance in chords.

    The line vortex at the quarter chord of a wing of slope a gives de/dalpha = a/(4 pi (d +
    1/4)), the
    finite span lowers it by the lifting line's share.
    """
    slope = 2.0 * math.pi * aspect_ratio / (aspect_ratio + 2.0)
    return slope / (4.0 * math.pi * (ahead + 0.25))


def fin_end_plate(airframe: Airframe) -> float:
    """Gain in lift slope of a fin that stands on a body.

    The body closes the fin's foot: a(k A)/a(A) after Helmbold, k by fin height over body depth.

    Args:
        airframe: The plane.

    Returns:
        At least 1; 1 for a fin that stands on no body and for a V-tail. [-]

    Valid:
        Fin height 1 to 7 times the body's depth at the fin; +-10 % of the slope.

    Source:
        USAF DATCOM 5.3.1.1 (from memory); half of the gain for a flat profile is assumed.

    Example:
        >>> 1.0 <= fin_end_plate(airframe) < 1.4  # doctest: +SKIP
        True
    """
    fin, body = airframe.fin, airframe.body
    if fin is None or not fin.sits_on_body:
        return 1.0
    stations = [s.x for s in body.stations]
    depth = float(
        np.interp(fin.quarter_chord_x, stations, [s.top - s.bottom for s in body.stations])
    )
    ratio = float(np.interp(fin.span / max(depth, 1e-3), FIN_HEIGHTS, FIN_RATIOS))
    if body.build == "profile":
        ratio = 1.0 + FLAT_BODY * (ratio - 1.0)
    aspect = fin.aspect_ratio
    return helmbold_slope(ratio * aspect) / helmbold_slope(aspect)


def wing_height_effect(airframe: Airframe) -> float:
    """Rolling moment per sideslip from a wing above or below the fuselage's middle.

    d(Cl)/d(beta) = -1.2 sqrt(AR) (z/b) (2 d/b), z the wing above the middle, d the fuselage height.

    Args:
        airframe: The plane.

    Returns:
        Negative (righting) for a high wing. [1/rad]

    Valid:
        Round or square fuselages; a flat profile blocks less, so about half is sure.

    Source:
        USAF DATCOM 5.2.2.1 (from memory).

    Example:
        >>> wing_height_effect(airframe) < 0.0  # doctest: +SKIP
        True
    """
    wing, body = airframe.wing, airframe.body
    root = wing.panels[0]
    x = root.root[0] + 0.25 * root.root_chord
    stations = [s.x for s in body.stations]
    bottom = float(np.interp(x, stations, [s.bottom for s in body.stations]))
    top = float(np.interp(x, stations, [s.top for s in body.stations]))
    above = root.root[2] - 0.5 * (bottom + top)
    depth = math.sqrt(max(body.frontal_area, 1e-9) / (0.25 * math.pi))
    span = wing.span
    return -1.2 * math.sqrt(wing.aspect_ratio) * (above / span) * (2.0 * depth / span)
