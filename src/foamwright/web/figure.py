"""The plane as plain outlines for the drawing board, and the places of its findings."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from foamwright.shape.model import Point, Vector
from foamwright.sheets.silhouettes import Shape, from_above, from_ahead, from_side, station

if TYPE_CHECKING:
    from foamwright.core.verdicts import Check
    from foamwright.parts.model import Item
    from foamwright.plane import Plane
    from foamwright.shape.model import Airframe

DIGITS = 6  # of a metre: a thousandth of a millimetre is finer than any screen
HIDDEN_ITEMS = ("glue", "bands", "hook-and-loop")  # spread out: a box would mislead
SPREAD = ("pushrod", "guides", "motor-screws")
# Words in the place of a finding -> where it is pinned; the first that fits is taken.
PLACES = (
    ("balance point", "balance"),
    ("pack", "pack"),
    ("tray", "pack"),
    ("firewall", "motor"),
    ("propeller", "motor"),
    ("motor", "motor"),
    ("speed controller", "controller"),
    ("wing tips", "tip"),
    ("outer panels", "tip"),
    ("aileron", "aileron"),
    ("centre joint", "centre"),
    ("wing saddle", "centre"),
    ("stab, fin", "tail"),
    ("fin", "fin"),
    ("rudder", "fin"),
    ("stab", "stab"),
    ("elevator", "stab"),
    ("servo", "servo"),
    ("pushrod", "servo"),
    ("spar", "spar"),
    ("section", "spar"),
    ("dihedral", "tip"),
    ("wing", "wing"),
)


def figure_of(plane: Plane, *, items: bool = True) -> dict[str, Any]:
    """Outlines of the three views as plain lists.

    Args:
        plane: The plane. [-]
        items: Whether motor, pack, servos and the like are drawn too. [-]

    Returns:
        View -> shapes, each with name and points [m]: from above (y, -x), from the side (x, z),
        from ahead (y, z).

    Source:
        Definition; the outlines are those of the three-view drawing.

    Example:
        >>> sorted(figure_of(plane))  # doctest: +SKIP
        ['front', 'side', 'top']
    """
    airframe = plane.airframe
    views = {
        "top": [_shape(shape) for shape in from_above(airframe)],
        "side": [_shape(shape) for shape in from_side(airframe)],
        "front": [_shape(shape) for shape in from_ahead(airframe)],
    }
    _propeller(views, airframe)
    for item in plane.parts.items if items else ():
        if item.id not in HIDDEN_ITEMS and not item.id.startswith(SPREAD):
            _box(views, item)
    return views


def flat(view: str, at: Vector) -> Point:
    """A place of the plane as a view shows it.

    Args:
        view: "top", "side" or "front". [-]
        at: Place on the plane. [m]

    Returns:
        Place in the view. [m]

    Source:
        Definition.

    Example:
        >>> flat("side", (0.3, 0.1, 0.02))
        (0.3, 0.02)
    """
    x, y, z = at
    return {"top": (y, -x), "side": (x, z), "front": (y, z)}[view]


def _shape(shape: Shape) -> dict[str, Any]:
    return {"name": shape.name, "points": _rounded(shape.points)}


def _rounded(points: tuple[Point, ...] | list[Point]) -> list[list[float]]:
    return [[round(float(x), DIGITS), round(float(y), DIGITS)] for x, y in points]


def _propeller(views: dict[str, list[dict[str, Any]]], airframe: Airframe) -> None:
    """The propeller edge on from above and the side; its disc from ahead is drawn as a circle."""
    x, y, z = airframe.thrust_point
    reach = airframe.propeller_diameter / 2
    tip = 0.06 * reach  # a thin sliver, so that it is seen
    views["top"].append(
        {
            "name": "propeller",
            "points": _rounded([(y - reach, -x), (y, -x + tip), (y + reach, -x), (y, -x - tip)]),
        }
    )
    views["side"].append(
        {
            "name": "propeller",
            "points": _rounded([(x, z - reach), (x + tip, z), (x, z + reach), (x - tip, z)]),
        }
    )
    views["front"].append({"name": "propeller", "disc": _rounded([(y, z)])[0], "radius": reach})


def _box(views: dict[str, list[dict[str, Any]]], item: Item) -> None:
    (x, y, z), (length, width, height) = item.at, item.size
    spans = {
        "top": ((y, width), (-x, length)),
        "side": ((x, length), (z, height)),
        "front": ((y, width), (z, height)),
    }
    for view, ((u, wide), (v, tall)) in spans.items():
        if item.id == "propeller":
            continue
        left, right, low, high = u - wide / 2, u + wide / 2, v - tall / 2, v + tall / 2
        corners = [(left, low), (right, low), (right, high), (left, high)]
        views[view].append({"name": item.name, "id": item.id, "points": _rounded(corners)})


def anchors(plane: Plane) -> dict[str, dict[str, Any]]:
    """Where on the drawing the findings of each part of the plane are pinned.

    Args:
        plane: The plane. [-]

    Returns:
        Name of the place -> view and place in it. [m]

    Source:
        Definition.

    Example:
        >>> anchors(plane)["balance"]["view"]  # doctest: +SKIP
        'side'
    """
    airframe = plane.airframe
    found = {
        "balance": ("side", plane.balance.cg),
        "motor": ("side", airframe.thrust_point),
        "wing": ("top", _on(airframe, 0.4, 0.5)),
        "spar": ("top", _on(airframe, 0.6, 0.25)),
        "aileron": ("top", _on(airframe, 0.75, 0.92)),
        "tip": ("front", _on(airframe, 0.93, 0.3)),
        "centre": ("top", _on(airframe, 0.0, 0.4)),
        "stab": ("top", _on_tail(airframe, 0.55)),
        "tail": ("top", _on_tail(airframe, 0.1)),
        "fin": ("side", _on_fin(airframe)),
    }
    for item in plane.parts.items:
        name = "servo" if item.id.startswith("servo") else item.id
        if name in ("pack", "controller", "servo") and name not in found:
            found[name] = ("side", item.at)
    return {
        name: {"view": view, "at": list(flat(view, place))} for name, (view, place) in found.items()
    }


def _on(airframe: Airframe, out: float, aft: float) -> Vector:
    (x, y, z), chord, _ = station(airframe.wing, out)
    return x + aft * chord, y, z


def _on_tail(airframe: Airframe, out: float) -> Vector:
    (x, y, z), chord, _ = station(airframe.stab, out)
    return x + 0.4 * chord, y, z


def _on_fin(airframe: Airframe) -> Vector:
    surface = airframe.fin if airframe.fin is not None else airframe.stab
    (x, y, z), chord, _ = station(surface, 0.6)
    return x + 0.4 * chord, y, z


def anchor_of(check: Check) -> str:
    """Where a finding is pinned.

    Args:
        check: The finding. [-]

    Returns:
        A key of `anchors`; "" for one that speaks of the whole plane. [-]

    Source:
        Definition.

    Example:
        >>> anchor_of(check)  # doctest: +SKIP
        'stab'
    """
    place = check.place.lower()
    return next((anchor for words, anchor in PLACES if words in place), "")


def marks_of(plane: Plane) -> dict[str, float]:
    """Where the balance point is and where it may be, for the marks on the drawing.

    Args:
        plane: The plane. [-]

    Returns:
        Places aft of the nose, and the height of the balance point. [m]

    Source:
        Definition.

    Example:
        >>> sorted(marks_of(plane))[0]  # doctest: +SKIP
        'aft'
    """
    balance, aero = plane.balance, plane.aero
    return {
        "cg": balance.cg[0],
        "height": balance.cg[2],
        "forward": aero.cg_forward,
        "aft": aero.cg_aft,
        "neutral": aero.neutral_point_x,
        "low": balance.cg_x_band.low,
        "high": balance.cg_x_band.high,
        "pack_front": balance.pack_front,
        "pack_back": balance.pack_back,
        "cg_front": balance.cg_front,
        "cg_back": balance.cg_back,
    }


def sections_of(plane: Plane) -> list[dict[str, Any]]:
    """The wing's folded sections along one half, for the section shown at any station.

    Args:
        plane: The plane. [-]

    Returns:
        Each panel's places along the half span and chords [m], outline and skin in fractions of the
        chord, and spar box.

    Source:
        Definition.

    Example:
        >>> len(sections_of(plane))  # doctest: +SKIP
        1
    """
    rows: list[dict[str, Any]] = []
    for panel in plane.airframe.wing.panels:
        section = panel.section
        box = section.spar_box
        rows.append(
            {
                "from": panel.root[1],
                "to": panel.tip[1],
                "chords": [panel.root_chord, panel.tip_chord],
                "upper": _rounded(section.upper),
                "lower": _rounded(section.lower),
                "skin": [[u / section.chord, v / section.chord] for u, v in section.skin_path],
                "spar": None if box is None else [value / section.chord for value in box],
                "thickness": section.thickness_ratio,
                "camber": section.camber_ratio,
                "build": section.build,
            }
        )
    return rows
