"""Section curves of the layer that shapes its own pressure, joined with the one-way layer's.

The coupled layer has nothing fitted and finds bubbles, drag and stall; where long bubbles stay
open, below Re 90 000, the one-way layer, fitted to measurements, has a say too. Both are joined at
equal shares of the way from zero lift to the stall, so that two stalls give one, not two.
"""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from foamwright.aero.coupled import CoupledPolar, coupled_polar
from foamwright.aero.coupled_panels import mass_influence, sharp_tail
from foamwright.aero.viscous import Curve

type Array = NDArray[np.float64]

COUPLED_REYNOLDS = (45e3, 61e3, 90e3, 135e3, 200e3, 400e3)
COUPLED_ALPHA = tuple(math.radians(-7.5 + 1.5 * k) for k in range(18))
# A tunnel model lifts less than the theory of a section, by its ends and the curved wake: lift
# lost, and angle that it falls behind per lift coefficient; fitted to three sections, each left
# out in turn (docs/physics/aero.md).
LIFT_KEPT, ANGLE_BEHIND = 0.98, math.radians(0.5)
LEVEL = 1.06  # measured drag over the coupled layer's at the same lift: mean of three sections
# Share of the coupled layer in a row; the rest is the one-way layer's.
TRUST = ((30e3, 0.0), (45e3, 0.2), (61e3, 0.2), (90e3, 1.0))
# Largest lifts this far apart: the one-way layer, fitted to other shapes, has gone astray; is lost.
ASTRAY, LOST = 0.25, 0.6
# Towards the stall, where neither layer is sure of a bubble at the nose, drag is the mean of both.
NEAR_STALL, AT_STALL, STALL_SHARE = 0.5, 0.8, 0.5
LEAST_CASES = 5  # settled cases without which a row is the one-way layer's
LEAST_SLOPE = -4.0  # 1/rad: a steeper fall from one angle to the next is another branch; assumed
KEPT_PAST = 0.93  # of the largest lift: how far past the stall the coupled row is followed
STAGES = np.linspace(-1.0, 1.0, 41)  # shares of the way from zero lift to the stall


@dataclass(frozen=True, slots=True)
class Branch:
    """One row of a section's figures up to its stall, or little beyond.

    Attributes:
        alpha: Rising. [rad]
        lift: [-]
        drag: [-]
        moment: About the quarter chord. [-]
        stall: Index of the largest lift. [-]
    """

    alpha: Array
    lift: Array
    drag: Array
    moment: Array
    stall: int

    @property
    def zero(self) -> float:
        """Zero-lift angle [rad], by the slope of the lowest points where lift never is zero."""
        lift = np.maximum.accumulate(self.lift[: self.stall + 1])
        if lift[0] < 0.0:
            return float(np.interp(0.0, lift, self.alpha[: self.stall + 1]))
        return float(self.alpha[0] - lift[0] / 6.0)


def coupled_grid(points: Array) -> CoupledPolar:
    """The coupled layer at COUPLED_REYNOLDS and COUPLED_ALPHA.

    Args:
        points: Corner points: tail, underside, nose, upper side, tail. [-]

    Returns:
        The grid.

    Source:
        coupled.py.

    Example:
        >>> coupled_grid(points).lift.shape  # doctest: +SKIP
        (6, 18)
    """
    flow = mass_influence(sharp_tail(points))
    return coupled_polar(flow, np.array(COUPLED_ALPHA), np.array(COUPLED_REYNOLDS))


def _middle_out(polar: CoupledPolar, row: int) -> list[int]:
    """Settled cases of one Reynolds number on the branch that holds the middle ones."""
    good = np.flatnonzero(polar.settled[row]).tolist()
    if len(good) < LEAST_CASES:
        return []
    start = min(range(len(good)), key=lambda k: abs(COUPLED_ALPHA[good[k]] - math.radians(1.5)))
    kept = [good[start]]
    for way in (good[start + 1 :], good[:start][::-1]):
        at = good[start]
        for new in way:
            turn = COUPLED_ALPHA[new] - COUPLED_ALPHA[at]
            if (polar.lift[row, new] - polar.lift[row, at]) / turn < LEAST_SLOPE:
                break
            kept.append(new)
            at = new
    return sorted(kept)


def coupled_branch(polar: CoupledPolar, row: int) -> Branch | None:
    """One Reynolds number of the coupled layer as a tunnel would measure it.

    Args:
        polar: The grid at COUPLED_ALPHA.
        row: Which Reynolds number. [-]

    Returns:
        The branch; None where too few cases are settled.

    Source:
        coupled.py; LIFT_KEPT, ANGLE_BEHIND, LEVEL.

    Example:
        >>> coupled_branch(polar, 4).lift.max()  # doctest: +SKIP
        1.38
    """
    found = _middle_out(polar, row)
    if len(found) < LEAST_CASES:
        return None
    lift = polar.lift[row, found]
    stall = int(lift.argmax())
    past = np.flatnonzero(lift[stall:] < KEPT_PAST * lift[stall])
    end = stall + int(past[0]) if len(past) else len(found)
    first = int(lift[: stall + 1].argmin())
    use = slice(first, max(end, stall + 1))
    return Branch(
        alpha=np.array(COUPLED_ALPHA)[found][use] + ANGLE_BEHIND * lift[use],
        lift=LIFT_KEPT * lift[use],
        drag=LEVEL * polar.drag[row, found][use],
        moment=polar.moment[row, found][use],
        stall=stall - first,
    )


def one_way_branch(curve: Curve, row: int) -> Branch:
    """One Reynolds number of the one-way layer up to its stall.

    Args:
        curve: From `section_curve`.
        row: Which Reynolds number. [-]

    Returns:
        The branch.

    Source:
        viscous.py.

    Example:
        >>> one_way_branch(curve, 4).stall  # doctest: +SKIP
        22
    """
    end = int(curve.stall[row]) + 1
    stall = int(curve.lift[row, :end].argmax())
    use = slice(int(curve.lift[row, : stall + 1].argmin()), stall + 1)
    alpha, lift, drag, moment = (
        v[row, use] for v in (curve.alpha, curve.lift, curve.drag, curve.moment)
    )
    return Branch(alpha, lift, drag, moment, len(alpha) - 1)


def _staged(branch: Branch, stages: Array) -> tuple[Array, Array, Array]:
    """Lift, ln of drag and moment at shares of the way from zero lift to the stall."""
    end = branch.stall + 1
    width = float(branch.alpha[branch.stall]) - branch.zero
    own = (branch.alpha[:end] - branch.zero) / width
    return (
        np.interp(stages, own, branch.lift[:end]),
        np.interp(stages, own, np.log(branch.drag[:end])),
        np.interp(stages, own, branch.moment[:end]),
    )


def joined(first: Branch, second: Branch, share: float) -> Branch:
    """Two branches mixed at equal shares of the way from zero lift to the stall.

    What the second has beyond its stall is kept where all lift is its own.

    Args:
        first: One.
        second: The other.
        share: Of the second, 0 to 1; in drag towards the stall half of it. [-]

    Returns:
        The mixture.

    Source:
        Definition; shares assumed, see docs/physics/aero.md.

    Example:
        >>> alpha, one = np.array([-0.1, 0.0, 0.2]), np.ones(3)
        >>> a = Branch(alpha, 5.0 * alpha, one, 0.0 * one, 2)
        >>> b = Branch(alpha, 4.0 * alpha, one, 0.0 * one, 2)
        >>> float(joined(a, b, 0.5).lift[-1].round(3))
        0.9
    """
    zero = (1.0 - share) * first.zero + share * second.zero
    ends = [float(b.alpha[b.stall]) for b in (first, second)]
    lowest = max(
        float(b.alpha[0] - b.zero) / (end - b.zero)
        for b, end in zip((first, second), ends, strict=True)
    )
    stages = np.concatenate([[lowest], STAGES[lowest < STAGES]])
    of_drag = share * np.interp(stages, (NEAR_STALL, AT_STALL), (1.0, STALL_SHARE))
    (lift, drag, moment) = (
        a + part * (b - a)
        for part, a, b in zip(
            (share, of_drag, share), _staged(first, stages), _staged(second, stages), strict=True
        )
    )
    width = (1.0 - share) * ends[0] + share * ends[1] - zero
    mixed = Branch(zero + width * stages, lift, np.exp(drag), moment, int(lift.argmax()))
    return mixed if share < 1.0 else _with_end(mixed, second)


def _with_end(mixed: Branch, second: Branch) -> Branch:
    """The second branch's end beyond its stall, drag moved to meet the mixture's."""
    past = slice(second.stall + 1, None)
    factor = mixed.drag[-1] / second.drag[second.stall]
    pairs = (
        (mixed.alpha, second.alpha[past]),
        (mixed.lift, second.lift[past]),
        (mixed.drag, factor * second.drag[past]),
        (mixed.moment, second.moment[past]),
    )
    return Branch(*(np.concatenate(pair) for pair in pairs), stall=mixed.stall)


def curve_of(branches: list[Branch]) -> Curve:
    """Branches of rising Reynolds number as one curve.

    Args:
        branches: At least one.

    Returns:
        The curve; short rows are filled up with rising angles beyond their stall.

    Source:
        Definition.

    Example:
        >>> curve_of([branch]).stall  # doctest: +SKIP
        array([12])
    """
    size = max(len(b.alpha) for b in branches)

    def padded(values: Array, step: float) -> Array:
        more = size - len(values)
        return np.concatenate([values, values[-1] + step * np.arange(1, more + 1)])

    return Curve(
        np.array([padded(b.alpha, 0.01) for b in branches]),
        np.array([padded(b.lift, 0.0) for b in branches]),
        np.array([padded(b.drag, 0.0) for b in branches]),
        np.array([padded(b.moment, 0.0) for b in branches]),
        np.array([len(b.alpha) - 1 for b in branches]),
    )


def refined_curve(points: Array, reynolds: Array, curve: Curve) -> Curve:
    """Curve of the one-way layer with the coupled layer joined in.

    Args:
        points: Corner points: tail, underside, nose, upper side, tail. [-]
        reynolds: Of the rows; those of the coupled layer are among them. [-]
        curve: One-way, same rows.

    Returns:
        The curve.

    Valid:
        Re 45 000 to 400 000; at 30 000 it is the one-way layer's where that is not astray.

    Source:
        coupled.py and viscous.py; reproduced in tests/validation/test_sections.py.

    Example:
        >>> refined_curve(points, reynolds, curve).lift.shape[0]  # doctest: +SKIP
        7
    """
    polar = coupled_grid(points)
    branches: list[Branch] = []
    for row, number in enumerate(reynolds.tolist()):
        fitted, least = one_way_branch(curve, row), COUPLED_REYNOLDS[0]
        if number in COUPLED_REYNOLDS:
            found = coupled_branch(polar, COUPLED_REYNOLDS.index(number))
        else:
            lowest = coupled_branch(polar, 0)
            found = None if lowest is None else slower(lowest, least / number)
        if found is not None:
            fitted = joined(fitted, found, _share(number, fitted, found))
        branches.append(fitted)
    return curve_of(branches)


def _share(reynolds: float, fitted: Branch, found: Branch) -> float:
    """Trust in the coupled layer; the more, the further the fitted one is from anything known."""
    places, shares = zip(*TRUST, strict=True)
    usual = float(np.interp(math.log(reynolds), np.log(places), shares))
    apart = abs(float(fitted.lift.max() - found.lift.max()))
    return max(usual, min((apart - ASTRAY) / (LOST - ASTRAY), 1.0))


def slower(branch: Branch, ratio: float) -> Branch:
    """A branch at a Reynolds number below all rows: lift as it is, drag up.

    Args:
        branch: The lowest row.
        ratio: Its Reynolds number over the one asked for. [-]

    Returns:
        The branch.

    Source:
        Laminar friction, with the root of the Reynolds number; assumed for all drag.

    Example:
        >>> one = np.ones(2)
        >>> slower(Branch(one, one, one, one, 1), 4.0).drag.tolist()
        [2.0, 2.0]
    """
    drag = branch.drag * math.sqrt(ratio)
    return Branch(branch.alpha, branch.lift, drag, branch.moment, branch.stall)
