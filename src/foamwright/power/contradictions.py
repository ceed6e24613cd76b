"""Bench figures that contradict the parts or one another, told in words."""

import math

from foamwright.power.curves import Array
from foamwright.power.reading import Compared

CONTRADICTS = 3.0  # standard deviations
WORDS = {
    "voltage": "volts are",
    "current": "amps are",
    "speed": "rpm are",
    "thrust": "thrust is",
}
BLADES_OFF = {2.0: "half", 1.5: "two thirds", 0.5: "twice", 2.0 / 3.0: "one and a half times"}
NEAR_BLADES = 0.12  # relative, how near such a factor; assumed


def contradictions_of(
    compared: tuple[Compared, ...], left: Array, noise: Array, *, names: list[tuple[int, str]]
) -> tuple[str, ...]:
    """Which figures go neither with the parts nor with the other figures.

    Args:
        compared: Every figure read beside the model. [-]
        left: ln of read over model after the best compromise, by figure. [-]
        noise: What such a figure usually errs, in ln. [-]
        names: Reading and name of each figure. [-]

    Returns:
        Sentences that say which, by how much, and where such a figure usually comes from. [-]

    Source:
        Three standard deviations; assumed.

    Example:
        >>> import numpy as np
        >>> contradictions_of((), np.zeros(0), np.zeros(0), names=[])
        ()
    """
    words = [
        f"Reading {item.reading + 1}: the {WORDS[item.name]} "
        f"{100 * (item.read / item.before - 1):+.0f} % off what these parts can give "
        f"({abs(item.surprise):.1f} times the usual spread). {_look_at(item)}"
        for item in compared
        if abs(item.surprise) > CONTRADICTS
    ]
    told = {(item.reading, item.name) for item in compared if abs(item.surprise) > CONTRADICTS}
    for i, (place, name) in enumerate(names):
        if abs(left[i]) > CONTRADICTS * noise[i] and (place, name) not in told:
            verb = WORDS[name].rsplit(" ", 1)
            do = "does" if verb[1] == "is" else "do"
            words.append(
                f"Reading {place + 1}: the {verb[0]} {do} not go with the other figures "
                f"({100 * (math.exp(left[i]) - 1):+.0f} % after the best compromise). Read again."
            )
    return tuple(words)


def _look_at(item: Compared) -> str:
    """Where such a figure usually comes from."""
    ratio = item.read / item.before
    for factor, share in BLADES_OFF.items():
        if item.name == "speed" and abs(ratio / factor - 1.0) < NEAR_BLADES:
            return (
                "A tachometer set to another number of blades shows that: the true figure "
                f"would be {share} of it."
            )
    return "Check the figure, its unit and the labels of motor, propeller and pack."
