"""Vectors of many members: cross products, turns, and the quaternion's rate."""

import numpy as np
from numpy.typing import NDArray

type Array = NDArray[np.float64]


def cross(a: Array, b: Array) -> Array:
    """Cross product of rows, quicker than the general one.

    Args:
        a: (..., 3). [any]
        b: (..., 3). [any]

    Returns:
        a x b. [any]

    Source:
        Definition.

    Example:
        >>> cross(np.array([1.0, 0, 0]), np.array([0, 1.0, 0])).tolist()
        [0.0, 0.0, 1.0]
    """
    x = a[..., 1] * b[..., 2] - a[..., 2] * b[..., 1]
    y = a[..., 2] * b[..., 0] - a[..., 0] * b[..., 2]
    z = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return np.stack([x, y, z], axis=-1)


def times(matrix: Array, vector: Array) -> Array:
    """Matrix of each row times vector of each row.

    Args:
        matrix: (n, 3, 3). [any]
        vector: (n, 3). [any]

    Returns:
        (n, 3). [any]

    Source:
        Definition.

    Example:
        >>> times(np.eye(3)[None], np.array([[1.0, 2.0, 3.0]])).tolist()
        [[1.0, 2.0, 3.0]]
    """
    return np.asarray((matrix @ vector[..., None])[..., 0])


def quaternion_rate(quaternion: Array, spin: Array) -> Array:
    """Rate of change of a quaternion that turns body to ground.

    dq/dt = q (0, w)/2.

    Args:
        quaternion: Scalar first. [-]
        spin: Body rates. [rad/s]

    Returns:
        Rates. [1/s]

    Source:
        [ETKIN-REID] sec. 4.4 in its quaternion form.

    Example:
        >>> quaternion_rate(np.array([[1.0, 0, 0, 0]]), np.array([[2.0, 0, 0]])).tolist()[0][1]
        1.0
    """
    w, x, y, z = (quaternion[:, k] for k in range(4))
    p, q, r = (spin[:, k] for k in range(3))
    return 0.5 * np.stack([
        -x * p - y * q - z * r,
        w * p + y * r - z * q,
        w * q + z * p - x * r,
        w * r + x * q - y * p,
    ], axis=1)  # fmt: skip
