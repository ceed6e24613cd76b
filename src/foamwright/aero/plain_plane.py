"""A whole plane from its dimensions alone, without a design file."""

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from foamwright.aero.outline import Points
from foamwright.aero.planforms import plain_wing
from foamwright.core.errors import ModelError
from foamwright.shape.model import (
    Airframe,
    Body,
    BodyStation,
    ControlSurface,
    LiftingPanel,
    LiftingSurface,
    WingSection,
)

BOARD = 0.005  # m, thickness of plates and hinge lines when nothing else is said
SEALED = True  # published planes have closed hinge lines unless they say otherwise; assumed


@dataclass(frozen=True, slots=True)
class Flap:
    """A hinged part from `start` to `end` of the half span.

    Attributes:
        chord_fraction: Hinged chord over local chord. [-]
        start: Fraction of the half span. [-]
        end: Fraction of the half span. [-]
        throw: Largest deflection either way. [rad]
    """

    chord_fraction: float
    start: float = 0.0
    end: float = 1.0
    throw: float = 0.35


@dataclass(frozen=True, slots=True)
class PlainSurface:
    """A wing, stab, V-tail (a stab with dihedral) or fin, straight-tapered.

    Attributes:
        span: Tip to tip, projected; height of a fin. [m]
        chords: From the root outwards, evenly spread. [m]
        at: Leading edge of the root. [m]
        sweep: Of the leading edge. [rad]
        dihedral: [rad]
        incidence: Of the root's chord line against the fuselage line. [rad]
        washout: The tip's nose below the root's. [rad]
        outline: Upper and lower side of the section, nose to tail, chord fractions; None for a
            flat plate. [-]
        flap: Aileron of a wing, elevator of a stab, rudder of a fin; on a V-tail both.
    """

    span: float
    chords: tuple[float, ...]
    at: tuple[float, float, float] = (0.0, 0.0, 0.0)
    sweep: float = 0.0
    dihedral: float = 0.0
    incidence: float = 0.0
    washout: float = 0.0
    outline: tuple[Points, Points] | None = None
    flap: Flap | None = None


def plain_airframe(
    wing: PlainSurface,
    stab: PlainSurface,
    *,
    fin: PlainSurface | None,
    body: Sequence[tuple[float, float, float, float]],
    propeller_diameter: float = 0.25,
) -> Airframe:
    """The plane as the air sees it, from dimensions.

    Args:
        wing: The wing.
        stab: The stab; with dihedral and no fin it is a V-tail.
        fin: The fin; None for a V-tail.
        body: Fuselage cross-sections, nose to tail: x, bottom, top, width. [m]
        propeller_diameter: [m]

    Returns:
        The shape, for `solve_lattice`, `section_polars` and `analyse`.

    Raises:
        ModelError: Sizes that make no plane.

    Valid:
        Wing ahead of the tail; propeller at the nose on the fuselage line.

    Source:
        Definition.

    Example:
        >>> wing = PlainSurface(1.2, (0.2, 0.2), at=(0.2, 0.0, 0.05), flap=Flap(0.2, 0.3))
        >>> stab = PlainSurface(0.4, (0.12, 0.12), at=(0.8, 0.0, 0.0), flap=Flap(0.3))
        >>> fin = PlainSurface(0.15, (0.15, 0.1), at=(0.78, 0.0, 0.0), flap=Flap(0.4))
        >>> frame = plain_airframe(wing, stab, fin=fin, body=[(0, -0.03, 0.03, 0.05),
        ...                                                   (0.9, -0.01, 0.01, 0.02)])
        >>> round(frame.wing.area, 2), frame.stab.controls[0].name
        (0.24, 'elevator')
    """
    if len(body) < 2 or any(b[0] <= a[0] for a, b in itertools.pairwise(body)):
        raise ModelError("A fuselage needs at least two cross-sections, x rising from the nose.")
    if any(top <= bottom or width <= 0.0 for _, bottom, top, width in body):
        raise ModelError("Every fuselage cross-section needs height and width: x, bottom, top, w.")
    both = ("elevator", "rudder") if fin is None else ("elevator",)
    return Airframe(
        wing=_placed("wing", wing, ("aileron",)),
        stab=_placed("stab", stab, both),
        fin=None if fin is None else _upright(fin),
        body=_body(body),
        thrust_point=(body[0][0], 0.0, 0.5 * (body[0][1] + body[0][2])),
        thrust_axis=(-1.0, 0.0, 0.0),
        propeller_diameter=propeller_diameter,
        board_thickness=BOARD,
        gear_area=0.0,
    )


def _body(rows: Sequence[tuple[float, float, float, float]]) -> Body:
    x, bottom, top, width = np.array(rows, dtype=float).T
    height = top - bottom
    stations = tuple(BodyStation(*map(float, (x[k], bottom[k], top[k], width[k])))
                     for k in range(len(x)))  # fmt: skip
    return Body(
        build="box",
        stations=stations,
        length=float(x[-1] - x[0]),
        frontal_area=float((height * width).max()),
        wetted_area=float(np.trapezoid(2.0 * (height + width), x)),
        side_area=float(np.trapezoid(height, x)),
    )


def _section(shape: PlainSurface) -> WingSection:
    chord = float(np.mean(shape.chords))
    if shape.outline is None:
        half = 0.5 * BOARD / chord
        upper = ((0.0, 0.0), (half, half), (1.0, half))
        lower = ((0.0, 0.0), (half, -half), (1.0, -half))
        return WingSection(
            "plate", upper, lower, chord, 2.0 * half, 0.0, 2.0 * half, 0.0, None, None, chord, (),
            ((chord, 0.0), (0.0, 0.0)), None,
        )  # fmt: skip
    upper, lower = (tuple((float(x), float(z)) for x, z in side) for side in shape.outline)
    places = np.linspace(0.0, 1.0, 101)
    high, low = (np.interp(places, *np.array(side).T) for side in (upper, lower))
    return WingSection(
        "outline", upper, lower, chord, float((high - low).max()),
        float(np.abs(0.5 * (high + low)).max()), upper[-1][1] - lower[-1][1], 0.0, None, None,
        2.0 * chord, (), ((chord, 0.0), (0.0, 0.0)), None,
    )  # fmt: skip


def _controls(shape: PlainSurface, names: Sequence[str], sides: int) -> tuple[ControlSurface, ...]:
    if shape.flap is None:
        return ()
    flap = shape.flap
    if not (0.0 < flap.chord_fraction <= 1.0 and 0.0 <= flap.start < flap.end <= 1.0):
        raise ModelError(
            "A flap needs a chord fraction from 0 to 1 and must run outwards within the half span; "
            f"got {flap.chord_fraction} of the chord from {flap.start} to {flap.end}."
        )
    chord = flap.chord_fraction * float(np.mean(shape.chords))
    length = sides * (flap.end - flap.start) * (shape.span / 2.0 if sides == 2 else shape.span)
    return tuple(
        ControlSurface(
            name, flap.start, flap.end, flap.chord_fraction, chord, length, length * chord,
            flap.throw, flap.throw, SEALED,
        )
        for name in names
    )  # fmt: skip


def _placed(name: str, shape: PlainSurface, controls: Sequence[str]) -> LiftingSurface:
    """A mirrored surface moved to its place, with section, incidence and controls."""
    count = len(shape.chords)
    twist = [shape.incidence - shape.washout * k / max(count - 1, 1) for k in range(count)]
    bare = plain_wing(
        span=shape.span,
        chords=shape.chords,
        sweep=shape.sweep,
        dihedral=shape.dihedral,
        twist=twist,
    )
    section = _section(shape)
    panels = tuple(
        replace(p, root=_moved(p.root, shape.at), tip=_moved(p.tip, shape.at), section=section)
        for p in bare.panels
    )
    return replace(
        bare,
        name=name,
        panels=panels,
        controls=_controls(shape, controls, 2),
        mean_chord_x=bare.mean_chord_x + shape.at[0],
    )


def _moved(
    point: tuple[float, float, float], at: tuple[float, float, float]
) -> tuple[float, float, float]:
    return (point[0] + at[0], point[1] + at[1], point[2] + at[2])


def _upright(shape: PlainSurface) -> LiftingSurface:
    """A fin: the right half of a wing of twice the height, stood on its root."""
    half = plain_wing(span=2.0 * shape.span, chords=shape.chords, sweep=shape.sweep)
    section = _section(shape)

    def up(point: tuple[float, float, float]) -> tuple[float, float, float]:
        return _moved((point[0], 0.0, point[1]), shape.at)

    panels = tuple(
        LiftingPanel(
            up(p.root), up(p.tip), p.root_chord, p.tip_chord, shape.incidence, shape.incidence,
            section,
        )
        for p in half.panels
    )  # fmt: skip
    area = 0.5 * half.area
    return LiftingSurface(
        "fin", panels, False, _controls(shape, ("rudder",), 1), area, shape.span, half.mean_chord,
        half.mean_chord_x + shape.at[0], shape.span**2 / area, True,
    )  # fmt: skip
