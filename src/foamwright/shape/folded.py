"""The folded section: one board bent round a nose, over a spar, bevelled at the trailing edge."""

import math
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from foamwright.core.errors import DesignError
from foamwright.shape.model import FoldLine, WingSection
from foamwright.shape.outline import measure, target_distance
from foamwright.shape.recipe import FoldedRecipe
from foamwright.shape.skin import BentSkin, SkinProblem, bend_skin

# How far outside the board's middle the length-keeping line runs, in thicknesses: where the foam
# is cut and the outer paper kept, that paper keeps its length; a dent leaves the middle; assumed.
NEUTRAL = {"fold": 0.5, "score": 0.5, "crease": 0.0, "bevel": 0.0}
NOSE_RADIUS = 1.0  # of the wrapped paper, in board thicknesses: the boards' inner edges just meet
# The fold lets the top skin leave steeper than a straight line to the spar by this factor; of 1.2
# to 1.8 tried, it brings chords of 170 to 210 mm nearest the Clark-Y ordinates.
NOSE_STEEPNESS = 1.6
BARE_NOSE_SLOPE = 0.35  # without a spar; assumed
BEVEL_WIDTH = 8.0  # in board thicknesses when the design gives none, 1 1/2 in; common practice
TRAILING_REST = 0.2  # edge left after bevelling both skins, in thicknesses (papers, glue); assumed
SCORE_ABOVE = 0.15  # rad; a sharper turn wants the paper cut, not only dented; common practice
DEFAULT_CREASES = ((), (0.10,), (0.10, 0.20), (0.10, 0.20, 0.36))  # fractions of chord
CREASE_APART = 2.0  # least distance of creases, in thicknesses: closer, the foam crushes; assumed
LEAST_BEVEL = 3.0  # in thicknesses; a shorter one would bend the skin past STEEPEST_NOSE; assumed
HOLLOW = 0.35  # rad; a crease that turns further inwards shows a spar out of place; assumed
SNAP = 0.001  # m; a crease this near an edge of the spar is laid on it: nobody can cut finer
STEEPEST_NOSE = 0.9  # dz/dx; beyond it the small-slope beam does not hold
NOSE_POINTS = 10

type Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Frame:
    """Places on the building board: x aft from the nose, z up from the table. Lengths in metres."""

    chord: float
    thickness: float
    radius: float
    rest: float
    length: float
    bevel: float
    nose_angle: float


def _frame(recipe: FoldedRecipe, chord: float, thickness: float) -> _Frame:
    radius, rest = NOSE_RADIUS * thickness, TRAILING_REST * thickness
    bevel = BEVEL_WIDTH * thickness if recipe.bevel is None else recipe.bevel
    if chord < 12.0 * thickness:
        raise DesignError(
            "wing.panel.chord",
            f"{1000 * chord:.0f}\u00a0mm",
            f"a folded wing of {1000 * thickness:.1f}\u00a0mm board needs at least "
            f"{12000 * thickness:.0f}\u00a0mm",
            'Make the chord larger, or build the wing as "plate".',
        )
    # The leading edge is the point of the nose circle farthest from the trailing edge.
    length = radius + math.sqrt((chord - radius) ** 2 - (radius - rest / 2.0) ** 2)
    if not LEAST_BEVEL * thickness <= bevel <= 0.5 * chord:
        raise DesignError(
            "wing.bevel",
            f"{1000 * bevel:.0f}\u00a0mm",
            f"it must be {1000 * LEAST_BEVEL * thickness:.0f} to {500 * chord:.0f}\u00a0mm here",
            f"Use {1000 * min(BEVEL_WIDTH * thickness, 0.3 * chord):.0f}\u00a0mm.",
        )
    slope = BARE_NOSE_SLOPE
    if recipe.spar_height > 0.0:
        front = recipe.spar_position * chord - 0.5 * recipe.spar_width
        rear = front + recipe.spar_width
        _check_spar(recipe, front, rear, room=(2.0 * radius, length - bevel))
        climb = recipe.spar_height + 1.5 * thickness - radius - 0.5 * thickness
        slope = max(NOSE_STEEPNESS * climb / (front - 0.8 * radius), 0.1)
        if slope > STEEPEST_NOSE:
            raise DesignError(
                "wing.spar.strips",
                f"a spar {1000 * recipe.spar_height:.0f}\u00a0mm high",
                f"the top skin would rise at {math.degrees(math.atan(slope)):.0f} deg from the "
                f"nose of a {1000 * chord:.0f}\u00a0mm chord, steeper than it can be folded",
                "Take a strip out, lay the strips flat, or move the spar aft.",
            )
    return _Frame(chord, thickness, radius, rest, length, bevel, math.atan(slope))


def _check_spar(
    recipe: FoldedRecipe, front: float, rear: float, *, room: tuple[float, float]
) -> None:
    if front < room[0] or rear > room[1]:
        raise DesignError(
            "wing.spar.position",
            f"{recipe.spar_position:.2f} of the chord (spar {1000 * front:.0f} to "
            f"{1000 * rear:.0f}\u00a0mm behind the leading edge)",
            f"the room inside the section is {1000 * room[0]:.0f} to {1000 * room[1]:.0f}\u00a0mm",
            "Move the spar, make its strips narrower, or make the bevel narrower.",
        )


def _crease_places(recipe: FoldedRecipe, frame: _Frame) -> tuple[float, ...]:
    low = frame.radius + 0.5 * frame.thickness
    high = frame.length - frame.bevel - frame.thickness
    good: list[float] = []
    for fraction in sorted(recipe.creases):
        place = fraction * frame.chord
        fits = low < place < high
        apart = not good or place - good[-1] >= CREASE_APART * frame.thickness
        if fits and apart:
            good.append(place)
        elif not recipe.spread:
            raise DesignError(
                "wing.crease_positions",
                f"{fraction:.2f} of the chord",
                f"creases must lie between {low / frame.chord:.2f} (the nose) and "
                f"{high / frame.chord:.2f} (the bevel), "
                f"{1000 * CREASE_APART * frame.thickness:.0f}\u00a0mm from each other",
                "Move it, or leave crease_positions out for the usual spread.",
            )
    return tuple(good)


def _dropped(recipe: FoldedRecipe, frame: _Frame) -> tuple[str, ...]:
    """Words on creases of the usual spread that do not fit this chord."""
    kept = _crease_places(recipe, frame)
    places = [fraction * frame.chord for fraction in sorted(recipe.creases)]
    lost = [place for place in places if place not in kept]
    if not lost:
        return ()
    where = ", ".join(f"{place / frame.chord:.2f}" for place in lost)
    count = "crease" if len(lost) == 1 else "creases"
    return (
        f"The usual {count} at {where} of the chord left out: no room between nose, bevel and "
        f"their neighbours on a {1000 * frame.chord:.0f}\u00a0mm chord.",
    )


def _on_spar(recipe: FoldedRecipe, frame: _Frame) -> tuple[int, ...]:
    """The edge of the spar that each crease lies on: 0 front, 1 rear, -1 neither."""
    middle, half = recipe.spar_position * frame.chord, 0.5 * recipe.spar_width
    edges = (middle - half, middle + half) if recipe.spar_height > 0.0 else ()
    return tuple(
        next((index for index, edge in enumerate(edges) if abs(edge - place) < SNAP), -1)
        for place in _crease_places(recipe, frame)
    )


def _bend(recipe: FoldedRecipe, frame: _Frame) -> BentSkin:
    t, radius, angle = frame.thickness, frame.radius, frame.nose_angle
    closing = (2.0 * t - frame.rest) / frame.bevel
    down = math.atan(closing)
    supports: tuple[tuple[float, float], ...] = ()
    if recipe.spar_height > 0.0:
        middle, half = recipe.spar_position * frame.chord, 0.5 * recipe.spar_width
        over = recipe.spar_height + 1.5 * t
        supports = ((middle - half, over), (middle + half, over))
    creases = tuple(
        supports[edge][0] if edge >= 0 else place
        for place, edge in zip(
            _crease_places(recipe, frame), recipe.on_spar or _on_spar(recipe, frame), strict=True
        )
    )
    inner = radius - 0.5 * t
    return bend_skin(
        SkinProblem(
            start=(
                radius - inner * math.sin(angle),
                radius + inner * math.cos(angle),
                math.tan(angle),
            ),
            end=(
                frame.length - frame.bevel - 0.5 * t * math.sin(down),
                2.0 * t - 0.5 * t * math.cos(down),
                -closing,
            ),
            supports=supports,
            creases=creases,
            thickness=t,
        )
    )


def _outside(frame: _Frame, skin: BentSkin) -> tuple[Array, Array]:
    """Upper and lower outlines on the building board, nose to tail."""
    t, r = frame.thickness, frame.radius
    steep = np.hypot(1.0, skin.slope)
    over = np.column_stack([skin.x - 0.5 * t * skin.slope / steep, skin.z + 0.5 * t / steep])
    # Chord line through the nose circle's middle and the trailing edge's middle.
    tail = math.atan2(0.5 * frame.rest - r, frame.length - r)
    top_turn = np.linspace(math.pi + tail, 0.5 * math.pi + frame.nose_angle, NOSE_POINTS)
    low_turn = np.linspace(math.pi + tail, 1.5 * math.pi, NOSE_POINTS)
    nose_top = np.column_stack([r + r * np.cos(top_turn), r + r * np.sin(top_turn)])
    nose_low = np.column_stack([r + r * np.cos(low_turn), r + r * np.sin(low_turn)])
    bevel = np.linspace(0.0, 1.0, 6)[1:, None]
    start, end = over[-1], np.array([frame.length, frame.rest])
    upper = np.vstack([nose_top, over[1:], start + bevel * (end - start)])
    flat = np.linspace(r, frame.length, 16)[1:]
    lower = np.vstack([nose_low, np.column_stack([flat, np.zeros_like(flat)])])
    return upper, lower


def _lines(
    frame: _Frame, skin: BentSkin, kinds: tuple[str, ...] | None
) -> tuple[tuple[FoldLine, ...], float]:
    """Lines across the blank, from the trailing edge of the bottom, and the blank's length."""
    t = frame.thickness
    bottom = frame.length - frame.radius
    turn = math.pi - frame.nose_angle
    nose = (frame.radius - 0.5 * t + NEUTRAL["fold"] * t) * turn
    lines = [
        FoldLine("bevel", frame.bevel, 0.0),
        FoldLine("fold", bottom + 0.5 * nose, turn, nose),
    ]
    along = bottom + nose
    own = tuple("score" if kink > SCORE_ABOVE else "crease" for kink in skin.kinks)
    for kind, kink, arc in zip(kinds or own, skin.kinks, skin.kink_arcs, strict=True):
        allowance = NEUTRAL[kind] * t * kink
        lines.append(FoldLine(kind, along + arc + 0.5 * allowance, kink))
        along += allowance
    along += float(skin.arc[-1])
    lines.append(FoldLine("bevel", along, 0.0))
    drop = 2.0 * t - frame.rest
    return tuple(lines), along + math.hypot(frame.bevel, drop)


def _path(frame: _Frame, skin: BentSkin) -> Array:
    """Middle line of the skin, on the building board."""
    t, r = frame.thickness, frame.radius
    inner = r - 0.5 * t
    turn = np.linspace(1.5 * math.pi, 0.5 * math.pi + frame.nose_angle, 2 * NOSE_POINTS)
    nose = np.column_stack([r + inner * np.cos(turn), r + inner * np.sin(turn)])
    top = np.column_stack([skin.x, skin.z])[1:]
    down = math.atan2(2.0 * t - frame.rest, frame.bevel)
    tail = top[-1] + math.hypot(frame.bevel, 2.0 * t - frame.rest) * np.array(
        [math.cos(down), -math.sin(down)]
    )
    return np.vstack([[frame.length, 0.5 * t], nose, top, tail])


def _to_chord_line(frame: _Frame, points: Array) -> Array:
    """Building board to chord frame, metres."""
    r = frame.radius
    tail = math.atan2(0.5 * frame.rest - r, frame.length - r)
    along = np.array([math.cos(tail), math.sin(tail)])
    nose = np.array([r, r]) - r * along
    away = points - nose
    return np.column_stack([away @ along, away @ np.array([-along[1], along[0]])])


def folded_section(recipe: FoldedRecipe, chord: float, thickness: float) -> WingSection:
    """Section of a folded wing as it comes off the building board.

    The bottom skin lies flat, the paper wraps the nose as a circle of one thickness, the top skin
    is an elastic strip with hinges at its creases, glued to both edges of the spar and bevelled at
    the tail.

    Args:
        recipe: Creases, bevel, spar and target. [-]
        chord: Straight leading-to-trailing-edge length. [m]
        thickness: Of the board. [m]

    Returns:
        The section, with the lines of its blank.

    Valid:
        Nose rising at up to 42 deg; creases and bevels as common practice. Foam crush and glue
        thickness are left out.

    Raises:
        DesignError: The spar, the bevel or a crease does not fit the section.

    Source:
        Bernoulli-Euler strip; compared with the Clark-Y in tests/validation/test_clark_y.py.

    Example:
        >>> recipe = FoldedRecipe((0.1, 0.2), True, None, 0.010, 0.0254, 0.27, "clark-y")
        >>> round(folded_section(recipe, 0.19, 0.005).blank_length, 3)
        0.388
    """
    frame = _frame(recipe, chord, thickness)
    skin = _bend(recipe, frame)
    _check_hollow(recipe, skin)
    upper, lower = (_to_chord_line(frame, side) / chord for side in _outside(frame, skin))
    upper = _forward_only(upper, recipe)
    lines, blank = _lines(frame, skin, recipe.kinds)
    size = measure(upper, lower)
    rms, largest = target_distance(recipe.target, upper, lower)
    box = None
    if recipe.spar_height > 0.0:
        middle, half = recipe.spar_position * chord, 0.5 * recipe.spar_width
        corners = np.array(
            [[middle - half, thickness], [middle + half, thickness + recipe.spar_height]]
        )
        (x0, z0), (x1, z1) = _to_chord_line(frame, corners).tolist()
        box = (x0, z0, x1, z1)
    bottom_angle = math.atan2(frame.radius - 0.5 * frame.rest, frame.length - frame.radius)
    return WingSection(
        build="folded",
        upper=tuple(map(tuple, upper.tolist())),
        lower=tuple(map(tuple, lower.tolist())),
        chord=chord,
        thickness_ratio=size.thickness,
        camber_ratio=size.camber,
        trailing_thickness_ratio=frame.rest / chord,
        bottom_angle=bottom_angle,
        target_rms=rms,
        target_max=largest,
        blank_length=blank,
        lines=lines,
        skin_path=tuple(map(tuple, _to_chord_line(frame, _path(frame, skin)).tolist())),
        spar_box=box,
        notes=recipe.notes or _dropped(recipe, frame),
        bend_radius=skin.least_radius,
    )


def panel_recipe(
    recipe: FoldedRecipe, root_chord: float, tip_chord: float, *, thickness: float
) -> FoldedRecipe:
    """What a tapered panel is folded from: creases that fit along all of it, of one kind each.

    Args:
        recipe: As for one chord. [-]
        root_chord: [m]
        tip_chord: [m]
        thickness: Of the board. [m]

    Returns:
        The recipe with the creases that both ends have room for, and with the kind of each decided
        at the mean chord.

    Raises:
        DesignError: An end cannot be folded.

    Source:
        Definition: a crease is one straight line from root to tip, cut one way.

    Example:
        >>> recipe = FoldedRecipe((0.1, 0.2), True, None, 0.010, 0.0254, 0.27, "clark-y")
        >>> panel_recipe(recipe, 0.20, 0.16, thickness=0.005).kinds
        ('score', 'score')
    """
    frames = [_frame(recipe, chord, thickness) for chord in (root_chord, tip_chord)]
    kept = [_crease_places(recipe, frame) for frame in frames]
    fits = [{round(x / f.chord, 9) for x in xs} for xs, f in zip(kept, frames, strict=True)]
    both = tuple(c for c in sorted(recipe.creases) if all(round(c, 9) in fit for fit in fits))
    notes = tuple(dict.fromkeys(word for frame in frames for word in _dropped(recipe, frame)))
    common = replace(recipe, creases=both, notes=notes)
    middle = folded_section(common, 0.5 * (root_chord + tip_chord), thickness)
    kinds = tuple(line.kind for line in middle.lines if line.kind in ("score", "crease"))
    on_spar = _on_spar(common, _frame(common, 0.5 * (root_chord + tip_chord), thickness))
    return replace(common, kinds=kinds, on_spar=on_spar)


def _check_hollow(recipe: FoldedRecipe, skin: BentSkin) -> None:
    if min(skin.kinks, default=0.0) < -HOLLOW:
        raise DesignError(
            "wing.crease_positions",
            ", ".join(f"{x:.2f}" for x in recipe.creases),
            "the top skin would fold inwards at a crease",
            "Leave crease_positions out, or move the spar towards 0.27 of the chord.",
        )


def _forward_only(upper: Array, recipe: FoldedRecipe) -> Array:
    """Drop points that step back where a concave crease pinches the outer paper."""
    furthest = np.maximum.accumulate(upper[:, 0])
    keep = np.ones(len(upper), dtype=bool)
    keep[1:] = upper[1:, 0] > furthest[:-1] + 1e-9
    if keep.sum() < 0.7 * len(upper):
        raise DesignError(
            "wing.crease_positions",
            ", ".join(f"{x:.2f}" for x in recipe.creases),
            "the top skin would double back on itself",
            "Leave crease_positions out, or make the spar lower.",
        )
    return upper[keep]
