"""A plane laid out by the ratios of the trade: to start from, and to compare with."""

from __future__ import annotations

import math

from foamwright.design.new_sizes import KINDS
from foamwright.idea.layout import design_of
from foamwright.idea.problem import Problem, span_bounds
from foamwright.idea.score import plane_of
from foamwright.plane import Plane

BALANCE = 0.28  # of the mean chord, middle of 25 to 30 %; common practice, no source
DEGREE = math.radians(1.0)


def trade_values(
    problem: Problem, *, span: float | None = None, aspect: float = 6.0
) -> dict[str, object]:
    """Choices by the usual ratios: common practice, no source.

    Aspect ratio 6, fuselage 72 % of the span, nose 15 % of it, stab 21 % of the wing with 35 % of
    it elevator, fin a third of the stab, ailerons 17 % of the chord, dihedral 5 deg without
    ailerons and 2 deg with them, incidence 1 deg with ailerons and 3 deg without, washout 2 deg,
    2 deg of down and right thrust, doubled spar at 27 % with a stick over the centre third.

    Args:
        problem: The bench and wishes; the strongest power set is taken. [-]
        span: None takes the longest wished. [m]
        aspect: Span over mean chord. [-]

    Returns:
        Gene name -> value. [any]

    Source:
        Common practice, no source.

    Example:
        >>> trade_values(problem)["stab_share"]
        0.21
    """
    genes = {gene.name: gene for gene in problem.genes}
    controls = genes["controls"].choices[-1]
    rolls = controls == "ailerons"
    sticks = [name for name in genes["stick"].choices if name is not None]
    tapes = [name for name in genes["tape"].choices if name is not None]
    kind = KINDS[problem.wishes.wish.kind]
    return {
        "span": span_bounds(problem.wishes)[1] if span is None else span,
        "aspect": aspect,
        "taper": 1.0,
        "washout": 2.0 * DEGREE,
        "incidence": (1.0 if rolls else 3.0) * DEGREE,
        "stab_share": 0.21,
        "stab_aspect": 3.0,
        "fin_share": 0.07,
        "length_share": 0.72,
        "nose_share": 0.15,
        "pack_share": 0.12,
        "roll": 0.5 if rolls else 0.0,
        "aileron_chord": 0.17,
        "panels": 1,
        "controls": controls,
        "build": genes["build"].choices[0],
        "height": 0.09,
        "layers": kind.layers,
        "saddle": 7 if kind.layers > 1 else 3,
        "hinge": 0.65,
        "down_thrust": 2.0 * DEGREE,
        "right_thrust": 2.0 * DEGREE,
        "strip_share": 0.13,
        "stick": sticks[-1] if sticks else None,
        "stick_share": 0.33,
        "top_stick": None,
        "brace_share": 0.15,
        "firewall": genes["firewall"].choices[0],
        "tape": tapes[0] if tapes else None,
        "creases": 2,
        "bands": 6 if kind.layers > 1 else 4,
        "gear": max(problem.gear, key=lambda each: each.thrust),
    }


def trade_plane(problem: Problem, values: dict[str, object]) -> Plane:
    """The plane of such choices, its pack where the balance point is 28 % of the mean chord.

    Args:
        problem: The bench and wishes. [-]
        values: Gene name -> value. [any]

    Returns:
        The plane; where the pack cannot reach that far it lies at the end of its tray. [-]

    Raises:
        DesignErrors: It cannot be built.

    Source:
        Common practice, no source.

    Example:
        >>> trade_plane(problem, trade_values(problem)).balance.cg[0] > 0.1
        True
    """
    plane = plane_of(problem, design_of(problem, values))
    aero, balance = plane.aero, plane.balance
    wanted = aero.mean_chord_x + BALANCE * aero.mean_chord
    share = balance.all_up_mass / plane.train.pack.mass.typical
    place = plane.design.pack.position + (wanted - balance.cg[0]) * share
    place = min(max(place, balance.pack_front), balance.pack_back)
    return plane.with_values({"pack.position": round(place / problem.step) * problem.step})
