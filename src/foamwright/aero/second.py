"""Second methods to check the lattice by: lifting line, closed forms, tail-volume algebra."""

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]

TWO_PI = 2.0 * math.pi


@dataclass(frozen=True, slots=True)
class LineWing:
    """What the lifting line says of a straight wing.

    Attributes:
        lift_slope: [1/rad]
        delta: CDi = (1 + delta) CL²/(pi AR). [-]
        tau: 1/a = 1/a0 + (1 + tau)/(pi AR). [-]
        roll_damping: d(Cl)/d(p b/2V). [1/rad]
        dihedral_effect: d(Cl)/d(beta) per radian of dihedral. [1/rad²]
        twist_lift: CL of the twist alone. [-]
        drag_terms: CDi is the first times alpha², the second times alpha, the third. [-]
    """

    lift_slope: float
    delta: float
    tau: float
    roll_damping: float
    dihedral_effect: float
    twist_lift: float
    drag_terms: tuple[float, float, float]


def lifting_line(
    span: float,
    chord: Callable[[Array], Array],
    *,
    section_slope: float = TWO_PI,
    terms: int = 120,
    twist: Callable[[Array], Array] | None = None,
) -> LineWing:
    """Prandtl's lifting line for an unswept wing by Glauert's sine series.

    sum A_n sin(n t) (n mu + sin t) = mu alpha sin t, mu = a0 c/(4 b), y = (b/2) cos t.

    Args:
        span: Tip to tip. [m]
        chord: Chord at places y/(b/2) from -1 to 1. [m]
        section_slope: Lift slope of the section. [1/rad]
        terms: Terms of the series. [-]
        twist: Angle of the chord line at the same places; None for none. [rad]

    Returns:
        Lift slope, induced factor, roll damping, dihedral effect.

    Valid:
        Straight wings of aspect ratio above 4; overstates roll damping by a fifth at 6.

    Source:
        Glauert, Elements of Aerofoil and Airscrew Theory, ch. XI.

    Example:
        >>> round(lifting_line(6.0, lambda y: 0.0 * y + 1.0).lift_slope, 3)
        4.53
    """
    number = np.arange(1, terms + 1)
    theta = (number - 0.5) * math.pi / terms
    place = np.cos(theta)
    chords = chord(place)
    mu = section_slope * chords / (4.0 * span)
    matrix = np.sin(theta[:, None] * number) * (number * mu[:, None] + np.sin(theta)[:, None])
    # Causes: unit incidence, roll (incidence falls with y), sideslip on unit dihedral.
    turned = np.zeros(terms) if twist is None else twist(place)
    causes = np.stack([np.ones(terms), place, -np.sign(place), turned])
    series = np.linalg.solve(matrix, (mu * np.sin(theta) * causes).T)
    fine = np.linspace(0.0, math.pi, 4001)
    area = float(np.trapezoid(chord(np.cos(fine)) * np.sin(fine), fine)) * 0.5 * span
    aspect = span**2 / area
    slope = math.pi * aspect * float(series[0, 0])
    delta = float((number[1:] * (series[1:, 0] / series[0, 0]) ** 2).sum())
    plain, bent = series[:, 0], series[:, 3]
    drag = [math.pi * aspect * float((number * a * b).sum())
            for a, b in ((plain, plain), (2.0 * plain, bent), (bent, bent))]  # fmt: skip
    return LineWing(
        lift_slope=slope,
        delta=delta,
        tau=math.pi * aspect * (1.0 / slope - 1.0 / section_slope) - 1.0,
        roll_damping=-0.25 * math.pi * aspect * float(series[1, 1]),
        dihedral_effect=0.25 * math.pi * aspect * float(series[1, 2]),
        twist_lift=math.pi * aspect * float(bent[0]),
        drag_terms=(drag[0], drag[1], drag[2]),
    )


def helmbold_slope(aspect_ratio: float) -> float:
    """Lift slope of a straight wing of any aspect ratio.

    a = 2 pi AR / (2 + sqrt(AR² + 4)).

    Args:
        aspect_ratio: [-]

    Returns:
        Lift slope. [1/rad]

    Source:
        Helmbold 1942; reproduced in tests/validation/test_wing_theory.py.

    Example:
        >>> round(helmbold_slope(6.0), 4)
        4.5287
    """
    return TWO_PI * aspect_ratio / (2.0 + math.sqrt(aspect_ratio**2 + 4.0))


def downwash_datcom(
    aspect_ratio: float,
    *,
    taper: float,
    arm: float,
    height: float = 0.0,
    sweep: float = 0.0,
) -> float:
    """Downwash slope at the tail by the handbook formula.

    4.44 (KA Kl KH sqrt(cos sweep))^1.19.

    Args:
        aspect_ratio: Of the wing. [-]
        taper: Tip over root chord. [-]
        arm: Wing quarter chord to tail quarter chord, over span. [-]
        height: Tail above the wing's plane, over span. [-]
        sweep: Of the quarter-chord line. [rad]

    Returns:
        d(downwash)/d(alpha). [-]

    Source:
        USAF DATCOM 4.4.1 (from memory); reproduced in tests/validation/test_tail_volume.py.

    Example:
        >>> round(downwash_datcom(6.0, taper=1.0, arm=0.5), 3)
        0.361
    """
    by_aspect = 1.0 / aspect_ratio - 1.0 / (1.0 + aspect_ratio**1.7)
    by_taper = (10.0 - 3.0 * taper) / 7.0
    by_place = (1.0 - abs(height)) / (2.0 * arm) ** (1.0 / 3.0)
    return 4.44 * (by_aspect * by_taper * by_place * math.sqrt(math.cos(sweep))) ** 1.19


def downwash_far(lift_slope: float, aspect_ratio: float) -> float:
    """Downwash slope far behind an elliptic load, 2 a/(pi AR).

    Args:
        lift_slope: Of the wing. [1/rad]
        aspect_ratio: Of the wing. [-]

    Returns:
        d(downwash)/d(alpha). [-]

    Source:
        Etkin & Reid; Nelson; first estimate.

    Example:
        >>> round(downwash_far(4.3, 6.06), 3)
        0.452
    """
    return 2.0 * lift_slope / (math.pi * aspect_ratio)


def tail_volume(tail_area: float, arm: float, *, wing_area: float, length: float) -> float:
    """Tail volume coefficient, V = S_t l_t/(S L).

    Args:
        tail_area: Of the stab or fin. [m²]
        arm: Quarter chord of the wing to quarter chord of the tail. [m]
        wing_area: [m²]
        length: Mean chord for the stab, span for the fin. [m]

    Returns:
        Volume coefficient. [-]

    Source:
        Raymer, Aircraft Design, tail sizing; reproduced in tests/validation/test_tail_volume.py.

    Example:
        >>> round(tail_volume(0.0085, 0.242, wing_area=0.054, length=0.076), 3)
        0.501
    """
    return tail_area * arm / (wing_area * length)


def neutral_point_algebra(
    *,
    wing_centre: float,
    wing_slope: float,
    tail_slope: float,
    volume: float,
    downwash: float,
    body_moment: float = 0.0,
    efficiency: float = 1.0,
) -> float:
    """Neutral point by the tail-volume formula, in mean chords.

    x = x_w + eta V (a_t/a_w)(1 - de/da) - Cm_body/a_w.

    Args:
        wing_centre: Aerodynamic centre of the wing, in chords. [-]
        wing_slope: Of the wing on its area. [1/rad]
        tail_slope: Of the tail on its area. [1/rad]
        volume: Horizontal tail volume about the point that the formula's user takes. [-]
        downwash: d(downwash)/d(alpha). [-]
        body_moment: d(Cm)/d(alpha) of the fuselage, nose-up positive. [1/rad]
        efficiency: Dynamic pressure at the tail over that of the stream. [-]

    Returns:
        Neutral point in chords from where wing_centre is measured. [-]

    Source:
        Nelson, Flight Stability and Automatic Control, ch. 2.

    Example:
        >>> x = neutral_point_algebra(wing_centre=0.25, wing_slope=4.3, tail_slope=3.91,
        ...                           volume=0.66, downwash=0.45, body_moment=0.12)
        >>> round(x, 3)
        0.552
    """
    tail = efficiency * volume * tail_slope / wing_slope * (1.0 - downwash)
    return wing_centre + tail - body_moment / wing_slope
