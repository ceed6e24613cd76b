"""Typed-in planes for the tests of the physics rooms, independent of design files."""

import math

from foamwright.shape.model import (
    Airframe,
    Body,
    BodyStation,
    ControlSurface,
    LiftingPanel,
    LiftingSurface,
    WingSection,
)
from foamwright.shape.reference import clark_y


def rows(points):
    """Nested tuples of floats."""
    return tuple((float(a), float(b)) for a, b in points)


def clark_section(chord=0.2):
    upper, lower, angle = clark_y()
    return WingSection(
        "folded",
        rows(upper),
        rows(lower),
        chord,
        0.117,
        0.034,
        0.0012,
        angle,
        0.0,
        0.0,
        2.05 * chord,
        (),
        ((chord, 0.0), (0.0, 0.0)),
        None,
    )


def plate(chord=0.12, thickness=0.005):
    t = 0.5 * thickness / chord
    return WingSection(
        "plate",
        ((0.0, 0.0), (t, t), (1.0, t)),
        ((0.0, 0.0), (t, -t), (1.0, -t)),
        chord,
        2 * t,
        0.0,
        2 * t,
        0.0,
        None,
        None,
        chord,
        (),
        ((chord, 0.0), (0.0, 0.0)),
        None,
    )


def surface(
    name, root, *, span, chords, section, dihedral=0.0, sweep=0.0, twist=(0.0, 0.0), controls=()
):
    """A surface of one panel a side; a fin when the name says so."""
    fin = name == "fin"
    length = span if fin else 0.5 * span
    rise = 0.5 * math.pi if fin else dihedral
    tip = (
        root[0] + length * math.tan(sweep),
        root[1] + (0.0 if fin else length * math.cos(rise)),
        root[2] + length * math.sin(rise),
    )
    a, b = chords
    panel = LiftingPanel(root, tip, a, b, twist[0], twist[1], section)
    sides = 1 if fin else 2
    area = sides * 0.5 * (a + b) * length
    mean = 2 / 3 * (a + b - a * b / (a + b))
    inset = (a + 2 * b) / (3 * (a + b)) * length * math.tan(sweep)
    reach = length if fin else 2 * length * math.cos(rise)
    return LiftingSurface(
        name, (panel,), not fin, controls, area, reach, mean, root[0] + inset, reach**2 / area, fin
    )


def control(name, *, span, chord, fraction, start=0.0, end=1.0, throw=0.2):
    return ControlSurface(name, start, end, fraction, chord, span, span * chord, throw, throw, True)


def trainer(*, tail_span=0.38, tail_scale=1.0, dihedral=0.035, scale=1.0, tail_x=0.79, vee=0.0):
    """A 1.17 m aileron trainer on a profile fuselage; every length times `scale`."""
    k = scale
    chord, tail = 0.197 * k, 0.133 * k
    stab_span = tail_span * k * tail_scale
    aileron = control("aileron", span=1.0 * k, chord=0.032 * k, fraction=0.16, start=0.09, end=0.95)
    elevator = control("elevator", span=stab_span, chord=0.05 * k, fraction=0.38)
    rudder = control("rudder", span=0.15 * k, chord=0.052 * k, fraction=0.40, throw=0.35)
    wing = surface(
        "wing",
        (0.216 * k, 0.0, 0.05 * k),
        span=1.168 * k,
        chords=(chord, chord),
        dihedral=dihedral,
        section=clark_section(chord),
        twist=(0.041, 0.023),
        controls=(aileron,),
    )
    stab = surface(
        "stab",
        (tail_x * k, 0.0, 0.02 * k),
        span=stab_span,
        chords=(tail, tail),
        dihedral=vee,
        section=plate(tail, 0.005 * k),
        controls=(elevator, rudder) if vee else (elevator,),
    )
    fin = surface(
        "fin",
        ((tail_x - 0.015) * k, 0.0, 0.024 * k),
        span=0.152 * k,
        chords=(0.152 * k, 0.102 * k),
        sweep=0.21,
        section=plate(0.127 * k, 0.005 * k),
        controls=(rudder,),
    )
    stations = tuple(
        BodyStation(x * k, -0.5 * h * k, 0.5 * h * k, w * k)
        for x, h, w in (
            (0.0, 0.064, 0.035),
            (0.11, 0.076, 0.035),
            (0.112, 0.076, 0.015),
            (0.206, 0.088, 0.035),
            (0.42, 0.088, 0.035),
            (0.425, 0.088, 0.015),
            (0.914, 0.038, 0.015),
        )
    )
    body = Body("profile", stations, 0.914 * k, 0.0031 * k * k, 0.175 * k * k, 0.063 * k * k)
    return Airframe(
        wing,
        stab,
        None if vee else fin,
        body,
        (-0.035 * k, 0.0, 0.0),
        (-1.0, 0.0, 0.0),
        0.229 * k,
        0.005 * k,
        0.0,
    )
