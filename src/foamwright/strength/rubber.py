"""Pull of rubber bands."""

import math

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]
type Number = float | Array

WOOD_CONSTANT = 0.38  # [WOOD]: pure gum, 0.36 to 0.40
LONGEST_STRETCH = 5.0  # beyond it the law is not checked and bands tear soon, from memory
BREAKING_STRETCH = 6.5  # elongation at break of about 550 %, from memory


def rubber_stress(stretch: Number, modulus: Number) -> Number:
    """Pull of stretched rubber over its unstretched area, M (1/L - 1/L²) exp(A (L - 1/L)).

    Args:
        stretch: Stretched over free length L. [-]
        modulus: Young's modulus M at small stretch. [Pa]

    Returns:
        Stress on the unstretched area. [Pa]

    Valid:
        Stretch 0.5 to 5, pure gum, first pull; bands lose 5 to 20 % in the first hour.

    Source:
        [WOOD]; reproduced in tests/validation/test_rubber.py.

    Example:
        >>> round(float(rubber_stress(2.0, 1.2e6)) / 1e3, 2)
        530.48
    """
    L = stretch
    return modulus * (1.0 / L - 1.0 / L**2) * np.exp(WOOD_CONSTANT * (L - 1.0 / L))


def band_pull(stretch: Number, modulus: Number, *, width: float, thickness: float) -> Number:
    """Pull at each end of one band, both strands together, 2 w t sigma.

    Args:
        stretch: Stretched over flat length. [-]
        modulus: Young's modulus at small stretch. [Pa]
        width: Of a strand. [m]
        thickness: Of a strand. [m]

    Returns:
        Force. [N]

    Source:
        [WOOD]; reproduced in tests/validation/test_rubber.py.

    Example:
        >>> round(float(band_pull(3.0, 1.2e6, width=0.00635, thickness=0.00079)), 2)
        7.37
    """
    return 2.0 * width * thickness * rubber_stress(stretch, modulus)


def bands_needed(load: float, pull: float, *, safety: float = 2.0) -> int:
    """Bands that hold a wing down, each pulling at both its ends; never fewer than four.

    Args:
        load: Net lift to hold. [N]
        pull: Of one band at each end. [N]
        safety: [-]

    Returns:
        Number of bands. [-]

    Source:
        Statics; at least four is common practice.

    Example:
        >>> bands_needed(29.42, 7.37)
        4
    """
    return max(4, math.ceil(safety * load / (2.0 * pull) - 1e-9))
