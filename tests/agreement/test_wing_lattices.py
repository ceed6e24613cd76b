"""The wing against a lattice written anew here and against closed forms, over many shapes.

The lattice of this file shares nothing with ours: both halves cut whole, Biot and Savart by vector
products, another spacing, no unit causes.
"""

import math

import numpy as np
import pytest

from foamwright.aero.second import lifting_line
from foamwright.aero.wing import bare_wing, lifting_line_wing

STREAM = np.array([1.0, 0.0, 0.0])


def segment(point, a, b):
    """Wash of a straight vortex from a to b."""
    r1, r2 = point - a, point - b
    n1, n2 = np.linalg.norm(r1, axis=-1), np.linalg.norm(r2, axis=-1)
    below = 4.0 * math.pi * n1 * n2 * (n1 * n2 + (r1 * r2).sum(axis=-1))
    return np.cross(r1, r2) * ((n1 + n2) / below)[..., None]


def leg(point, a):
    """Wash of a vortex from a straight back for ever."""
    r = point - a
    n = np.linalg.norm(r, axis=-1)
    return np.cross(STREAM, r) / (4.0 * math.pi * n * (n - r[..., 0]))[..., None]


def half_cosine(count, crowded_root):
    """Edges and control places of the right half, fractions."""
    angle = np.linspace(0.0, 1.0, count + 1)
    middle = 0.5 * (angle[1:] + angle[:-1])
    if crowded_root:
        return 0.5 - 0.5 * np.cos(math.pi * angle), 0.5 - 0.5 * np.cos(math.pi * middle)
    return np.sin(0.5 * math.pi * angle), np.sin(0.5 * math.pi * middle)


def whole_lattice(span, taper, *, sweep, dihedral, washout, cut):
    """Lift slope, centre, induced factor, roll damping, dihedral effect, zero-lift angle."""
    strips, rows, crowded = cut
    right, places = half_cosine(strips, crowded)
    edge = np.concatenate([-right[::-1], right[1:]])
    place = np.concatenate([-places[::-1], places])
    half = 0.5 * span

    def on(s, fraction):
        chord = 1.0 - (1.0 - taper) * np.abs(s)
        back = np.abs(s) * half * math.tan(sweep) + fraction * chord
        return np.stack([back, s * half, np.abs(s) * half * math.tan(dihedral)], axis=-1)

    bounds = [on(edge, (k + 0.25) / rows) for k in range(rows)]
    inner = np.concatenate([b[:-1] for b in bounds])
    outer = np.concatenate([b[1:] for b in bounds])
    point = np.concatenate([on(place, (k + 0.75) / rows) for k in range(rows)])
    side = np.sign(np.tile(place, rows))
    normal = np.stack(
        [0.0 * side, -side * math.sin(dihedral), 0.0 * side + math.cos(dihedral)], axis=-1
    )
    p = point[:, None, :]
    wash = segment(p, inner[None], outer[None]) - leg(p, inner[None]) + leg(p, outer[None])
    matrix = (wash * normal[:, None, :]).sum(axis=-1)
    turned = -washout * np.abs(np.tile(place, rows))
    lever = point[:, 1] * normal[:, 2] - point[:, 2] * normal[:, 1]
    causes = np.stack([normal[:, 2], lever, -normal[:, 1], turned])
    flat, rolling, slipping, twisted = np.linalg.solve(matrix, -causes.T).T
    run, middle = outer - inner, 0.5 * (outer + inner)
    area = span * 0.5 * (1.0 + taper) / math.cos(dihedral)
    up = 2.0 * run[:, 1] / area
    about = -2.0 * (middle[:, 1] * run[:, 1] + middle[:, 2] * run[:, 2]) / (area * span)
    slope = float(flat @ up)
    # Far behind, in the plane across the stream.
    load = flat.reshape(rows, -1).sum(axis=0)
    across = np.stack([edge * half, np.abs(edge) * half * math.tan(dihedral)], axis=-1)
    at = np.stack([place * half, np.abs(place) * half * math.tan(dihedral)], axis=-1)
    gap = at[:, None, :] - across[None, :, :]
    ring = np.stack([gap[..., 1], -gap[..., 0]], axis=-1) / (gap**2).sum(axis=-1)[..., None]
    pair = (ring[:, 1:] - ring[:, :-1]) / (2.0 * math.pi)
    down = (pair * normal[: len(place), None, 1:]).sum(axis=-1) @ load
    width = np.linalg.norm(np.diff(across, axis=0), axis=1)
    drag = abs(float((load * down * width).sum())) / area
    return np.array(
        [
            slope,
            float((flat * middle[:, 0]) @ up) / slope,
            drag * math.pi * (span**2 / area) / slope**2,
            2.0 * float(rolling @ about) / span,
            float(slipping @ about),
            -float(twisted @ up) / slope,
        ]
    )


def limit(span, taper, **angles):
    """What the lattice above tends to, from two of which one is twice as fine."""
    kinked = abs(angles["sweep"]) > 0.05
    coarse, fine = (
        whole_lattice(span, taper, cut=(n, m, kinked), **angles) for n, m in ((10, 4), (20, 8))
    )
    return fine + (1.0 if kinked else 0.5) * (fine - coarse)


@pytest.mark.parametrize("sweep", [-30.0, 0.0, 20.0, 45.0])
@pytest.mark.parametrize(("taper", "dihedral"), [(0.1, 30.0), (0.6, 0.0), (1.3, 6.0)])
@pytest.mark.parametrize("aspect", [2.0, 6.0, 14.0])
def test_lattices(aspect, taper, sweep, dihedral):
    span = 0.5 * aspect * (1.0 + taper)
    angles = {"sweep": math.radians(sweep), "dihedral": math.radians(dihedral)}
    theirs = limit(span, taper, washout=0.05, **angles)
    ours = bare_wing(span=span, chords=(1.0, taper), twist=(0.0, -0.05), **angles)
    kink = sweep != 0.0 or taper < 0.3
    assert ours.lift_slope == pytest.approx(theirs[0], rel=2e-3 if kink else 1e-3)
    assert ours.centre_x == pytest.approx(theirs[1], abs=4e-3 * ours.mean_chord)
    assert ours.induced_factor == pytest.approx(theirs[2], abs=3e-3 if aspect > 9.0 else 2e-3)
    assert ours.roll_damping == pytest.approx(theirs[3], rel=2e-3)
    assert ours.zero_lift_angle == pytest.approx(theirs[5], abs=1e-4)
    if dihedral > 0.0:
        assert ours.dihedral_effect == pytest.approx(theirs[4], rel=5e-3)


def datcom_slope(aspect, sweep_half):
    """2 pi A/(2 + sqrt(A² (1 + tan²) + 4)), incompressible, sweep of the half-chord line."""
    return 2.0 * math.pi * aspect / (
        2.0 + math.sqrt(aspect**2 * (1.0 + math.tan(sweep_half) ** 2) + 4.0)
    )  # fmt: skip


@pytest.mark.parametrize("sweep", [-20.0, 0.0, 40.0])
@pytest.mark.parametrize("taper", [0.3, 1.0])
@pytest.mark.parametrize("aspect", [2.0, 6.0, 12.0])
def test_handbook_slope(aspect, taper, sweep):
    """The formula fits a lifting surface to some per cent; it says nothing of taper."""
    span = 0.5 * aspect * (1.0 + taper)
    half = math.radians(sweep)
    ours = bare_wing(span=span, chords=(1.0, taper), sweep=half, sweep_at=0.5).lift_slope
    assert datcom_slope(aspect, half) / ours == pytest.approx(1.04, abs=0.05)


def test_slender_triangles():
    """Jones's pi A/2 and two thirds of the chord are where both go as the triangle gets narrow."""
    shares, places = [], []
    for aspect in (1.0, 0.75, 0.5):
        ours = bare_wing(span=0.5 * aspect, chords=(1.0, 0.0), sweep=math.atan(4.0 / aspect))
        half = math.atan(2.0 / aspect)
        assert datcom_slope(aspect, half) < ours.lift_slope < 0.5 * math.pi * aspect
        assert "edges" in ours.notes[1]
        shares.append(ours.lift_slope / (0.5 * math.pi * aspect))
        places.append(ours.centre_x)
    assert 0.75 < shares[0] < shares[1] < shares[2] < 1.0
    assert 0.55 < places[0] < places[1] < places[2] < 2.0 / 3.0
    # Straight on to no aspect ratio at all.
    assert 2.0 * shares[2] - shares[0] == pytest.approx(1.0, abs=0.03)
    assert 2.0 * places[2] - places[0] == pytest.approx(2.0 / 3.0, abs=0.03)


@pytest.mark.parametrize("taper", [0.0, 0.3, 0.6, 1.0])
@pytest.mark.parametrize("aspect", [4.0, 8.0, 14.0])
def test_strip_theory_of_dihedral(aspect, taper):
    """Glauert's series for an incidence of opposite signs left and right, off by the aspect."""
    span = 0.5 * aspect * (1.0 + taper)
    tilt = math.radians(3.0)
    ours = bare_wing(span=span, chords=(1.0, taper), sweep_at=0.25, dihedral=tilt)
    line = lifting_line_wing(span=span, chords=(1.0, taper))
    assert 1.0 < tilt * line.dihedral_effect / ours.dihedral_effect < 1.0 + 1.3 / aspect
    # Both go towards strip theory, -a (1 + 2 taper)/(6 (1 + taper)) per radian.
    strips = -line.lift_slope * (1.0 + 2.0 * taper) / (6.0 * (1.0 + taper))
    assert 0.55 < line.dihedral_effect / strips < 1.0


@pytest.mark.parametrize("washout", [0.0, 0.03, 0.08])
@pytest.mark.parametrize("aspect", [6.0, 10.0, 14.0])
def test_drag_of_twist(aspect, washout):
    """Lifting line against lattice, never below the ideal."""
    sizes = {"span": 0.8 * aspect, "chords": (1.0, 0.6), "twist": (0.0, -washout)}
    ours, line = bare_wing(**sizes), lifting_line_wing(**sizes)
    assert ours.zero_lift_angle == pytest.approx(line.zero_lift_angle, rel=0.03, abs=1e-9)
    for lift in (0.0, 0.4, 0.9):
        both = []
        for wing in (ours, line):
            ideal = lift**2 / (math.pi * wing.aspect_ratio)
            drag = wing.induced_factor * ideal + wing.induced_linear * lift + wing.induced_least
            assert drag > ideal - 1e-6
            both.append(drag)
        assert both[0] == pytest.approx(both[1], abs=6e-4 + 0.03 * both[1])


@pytest.mark.parametrize("taper", [0.0, 0.4, 1.0])
@pytest.mark.parametrize("aspect", [3.0, 8.0, 14.0])
def test_series_is_long_enough(aspect, taper):
    span = 0.5 * aspect * (1.0 + taper)
    short = lifting_line_wing(span=span, chords=(1.0, taper))
    long = lifting_line(span, lambda y: 1.0 - (1.0 - taper) * np.abs(y), terms=500)
    assert short.induced_factor - 1.0 == pytest.approx(long.delta, abs=2e-4)
    assert short.lift_slope == pytest.approx(long.lift_slope, rel=2e-4)
    assert short.roll_damping == pytest.approx(long.roll_damping, rel=5e-4)
    assert short.dihedral_effect == pytest.approx(long.dihedral_effect, rel=5e-4)


@pytest.mark.parametrize("taper", [0.2])
@pytest.mark.parametrize("sweep", [0.0, 40.0])
def test_the_stated_spread_covers_a_much_finer_lattice(sweep, taper):
    angles = {"sweep": math.radians(sweep), "dihedral": 0.0, "washout": 0.0}
    ours = bare_wing(span=4.0, chords=(1.0, taper), sweep=angles["sweep"])
    theirs = whole_lattice(4.0, taper, cut=(30, 14, sweep > 0.0), **angles)
    for name, figure in zip(("lift_slope", "centre_x", "induced_factor"), theirs, strict=False):
        assert abs(getattr(ours, name) - figure) < 2.0 * ours.uncertainty[name] + 2e-4
