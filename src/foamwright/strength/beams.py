"""Plain beams and rods."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array


def rod_area(width: float, *, height: float, bore: float, round_rod: bool) -> float:
    """Cross-section of a stick, rod or tube.

    Args:
        width: Or outside diameter. [m]
        height: Of a flat one. [m]
        bore: Inside diameter. [m]
        round_rod: Whether it is round. [-]

    Returns:
        Area. [m²]

    Source:
        Geometry.

    Example:
        >>> round(rod_area(0.006, height=0.006, bore=0.004, round_rod=True) * 1e6, 3)
        15.708
    """
    if round_rod:
        return 0.25 * math.pi * (width**2 - bore**2)
    return width * height - 0.25 * math.pi * bore**2


def rod_second_moment(width: float, *, height: float, bore: float, round_rod: bool) -> float:
    """Second moment of area of a stick, rod or tube about its own middle.

    Round: pi (d⁴ - bore⁴) / 64; flat: w h³ / 12.

    Args:
        width: Or outside diameter. [m]
        height: Of a flat one, in the direction of bending. [m]
        bore: Inside diameter. [m]
        round_rod: Whether it is round. [-]

    Returns:
        Second moment. [m⁴]

    Source:
        Any handbook; reproduced in tests/validation/test_beams.py.

    Example:
        >>> round(127e9 * rod_second_moment(0.006, height=0.006, bore=0.004, round_rod=True), 2)
        6.48
    """
    if round_rod:
        return math.pi * (width**4 - bore**4) / 64.0
    return width * height**3 / 12.0 - math.pi * bore**4 / 64.0


def rod_moment(strength: Number, second_moment: float, *, height: float) -> Number:
    """Bending moment at which the outer fibre reaches its strength, sigma I / (h / 2).

    Args:
        strength: In bending. [Pa]
        second_moment: [m⁴]
        height: In the direction of bending. [m]

    Returns:
        Moment. [N m]

    Source:
        [ROARK] table 8.1; reproduced in tests/validation/test_beams.py.

    Example:
        >>> round(rod_moment(1.37e9, 5.105e-11, height=0.006), 2)
        23.31
    """
    return strength * second_moment / (0.5 * height)


def cantilever_stress(force: float, length: float, *, diameter: float) -> float:
    """Stress at the root of a round rod loaded at its end, 32 P L / (pi d³).

    Args:
        force: At the end. [N]
        length: [m]
        diameter: [m]

    Returns:
        Stress. [Pa]

    Source:
        [ROARK] table 8.1.

    Example:
        >>> round(cantilever_stress(10.0, 0.1, diameter=0.00635) / 1e6, 2)
        39.78
    """
    return 32.0 * force * length / (math.pi * diameter**3)


def centre_load_deflection(
    force: float, span: float, *, stiffness: float, clamped: bool = False
) -> float:
    """Deflection in the middle of a beam loaded there, P L³ / (48 E I), clamped P L³ / (192 E I).

    Args:
        force: [N]
        span: [m]
        stiffness: E I. [N m²]
        clamped: Whether both ends are held. [-]

    Returns:
        Deflection. [m]

    Source:
        [ROARK] table 8.1; reproduced in tests/validation/test_beams.py.

    Example:
        >>> round(1e3 * centre_load_deflection(5.0, 0.09, stiffness=0.08), 4)
        0.9492
    """
    return force * span**3 / ((192.0 if clamped else 48.0) * stiffness)


def cantilever_spread_deflection(load: Number, length: Number, stiffness: Number) -> Number:
    """Deflection at the end of a cantilever under an even load, w L⁴ / (8 E I).

    Args:
        load: Per length. [N/m]
        length: [m]
        stiffness: E I. [N m²]

    Returns:
        Deflection. [m]

    Source:
        [ROARK] table 8.1 case 2a; reproduced in tests/validation/test_beams.py.

    Example:
        >>> round(1e3 * cantilever_spread_deflection(4.905, 0.5, 11.2), 3)
        3.421
    """
    return load * length**4 / (8.0 * stiffness)


def ply_modulus(along: float, across: float, *, plies: int) -> float:
    """Bending modulus of plywood of equal plies along its face grain.

    Every ply's modulus times its share of h³/12: 3 plies (26 EL + ET) / 27, 5 plies
    (99 EL + 26 ET) / 125.

    Args:
        along: Modulus of a ply along its grain. [Pa]
        across: Across its grain. [Pa]
        plies: Number of plies, odd. [-]

    Returns:
        Modulus. [Pa]

    Source:
        Laminated beam, USDA Wood Handbook ch. 12; reproduced in tests/validation/test_beams.py.

    Example:
        >>> round(ply_modulus(13.86e9 * 1.1, 0.05 * 13.86e9 * 1.1, plies=3) / 1e9, 2)
        14.71
    """
    edges = [k - plies / 2.0 for k in range(plies + 1)]
    total = sum(
        (along if k % 2 == 0 else across) * (edges[k + 1] ** 3 - edges[k] ** 3)
        for k in range(plies)
    )
    return total / (plies**3 / 4.0)


def horvath_modulus(density: float) -> float:
    """Young's modulus of expanded polystyrene from its density, 0.45 rho - 3 in MPa.

    Args:
        density: [kg/m³]

    Returns:
        Modulus. [Pa]

    Valid:
        12 to 40 kg/m³; scatter 25 %.

    Source:
        [HORVATH]; reproduced in tests/validation/test_foam.py.

    Example:
        >>> round(horvath_modulus(27.0) / 1e6, 2)
        9.15
    """
    return (0.45 * density - 3.0) * 1e6


def gibson_ashby_modulus(
    density: float, *, solid_density: float, solid_modulus: float, edge_fraction: float
) -> float:
    """Young's modulus of closed-cell foam, Es (phi² r² + (1 - phi) r) with r = rho / rho_s.

    Args:
        density: Of the foam. [kg/m³]
        solid_density: Of its plastic. [kg/m³]
        solid_modulus: Of its plastic. [Pa]
        edge_fraction: Share of the plastic in the cell edges phi. [-]

    Returns:
        Modulus. [Pa]

    Valid:
        Gas pressure in the cells left out.

    Source:
        [GIBSON] eq. 5.13a; reproduced in tests/validation/test_foam.py.

    Example:
        >>> round(gibson_ashby_modulus(27.0, solid_density=1050.0, solid_modulus=3e9,
        ...     edge_fraction=0.8) / 1e6, 2)
        16.7
    """
    r = density / solid_density
    return solid_modulus * (edge_fraction**2 * r**2 + (1.0 - edge_fraction) * r)
