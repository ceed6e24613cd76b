"""What shape/ gives to the rooms above: sections, lifting surfaces, bodies."""

from dataclasses import dataclass

type Vector = tuple[float, float, float]
type Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class FoldLine:
    """A line across the chord of a folded skin's blank.

    Attributes:
        kind: "fold" (leading edge), "crease", "score" or "bevel".
        at: Distance from the trailing edge of the bottom skin along the blank. [m]
        angle: Change of direction at the line. [rad]
        width: Of the strip of foam taken out along it, half to each side; 0: a plain line. [m]
    """

    kind: str
    at: float
    angle: float
    width: float = 0.0


@dataclass(frozen=True, slots=True)
class WingSection:
    """A section as it comes off the building board, at one chord.

    Coordinates run in fractions of the straight leading-to-trailing-edge line: (0, 0) to (1, 0).

    Attributes:
        build: "folded", "stepped" or "plate".
        upper: Upper outline, nose to tail, (x/c, z/c).
        lower: Lower outline, nose to tail, (x/c, z/c).
        chord: Chord at which it was folded. [m]
        thickness_ratio: Largest thickness over chord. [-]
        camber_ratio: Largest height of the mean line over chord. [-]
        trailing_thickness_ratio: Height of the blunt trailing edge over chord. [-]
        bottom_angle: Angle of the flat bottom against the chord line, positive when the bottom
            points nose-down against the chord line (as on a Clark-Y). [rad]
        target_rms: Rms distance to the target section, fraction of chord; None without target. [-]
        target_max: Largest such distance; None without target. [-]
        blank_length: Length of the unfolded blank, trailing edge to trailing edge. [m]
        lines: Lines across the blank.
        skin_path: Middle line of the skin from the trailing edge of the bottom round the nose to
            the trailing edge of the top, in metres in the chord frame.
        spar_box: (x0, z0, x1, z1) of the spar in metres in the chord frame; None without spar.
        notes: What was done otherwise than asked, in words.
        bend_radius: Tightest bend of the top skin between its creases; None for flat layers. [m]
    """

    build: str
    upper: tuple[Point, ...]
    lower: tuple[Point, ...]
    chord: float
    thickness_ratio: float
    camber_ratio: float
    trailing_thickness_ratio: float
    bottom_angle: float
    target_rms: float | None
    target_max: float | None
    blank_length: float
    lines: tuple[FoldLine, ...]
    skin_path: tuple[Point, ...]
    spar_box: tuple[float, float, float, float] | None
    notes: tuple[str, ...] = ()
    bend_radius: float | None = None


@dataclass(frozen=True, slots=True)
class LiftingPanel:
    """One straight-tapered panel on the right (or only) side.

    Attributes:
        root: Leading edge at its root. [m]
        tip: Leading edge at its tip. [m]
        root_chord: [m]
        tip_chord: [m]
        root_twist: Angle of the chord line against the fuselage line, nose-up positive. [rad]
        tip_twist: Same at the tip. [rad]
        section: Section at the panel's mean chord.
    """

    root: Vector
    tip: Vector
    root_chord: float
    tip_chord: float
    root_twist: float
    tip_twist: float
    section: WingSection


@dataclass(frozen=True, slots=True)
class ControlSurface:
    """A hinged part of a lifting surface.

    Attributes:
        name: "aileron", "elevator", "rudder".
        start: Inner end along the half span, fraction. [-]
        end: Outer end along the half span, fraction. [-]
        chord_fraction: Hinged chord over local chord, mean. [-]
        chord: Mean chord of the hinged part. [m]
        span: Length of the hinge line, all sides together. [m]
        area: All sides together. [m²]
        up: Largest deflection trailing edge up (rudder: left). [rad]
        down: Largest deflection trailing edge down (rudder: right). [rad]
        gap_sealed: Whether the hinge gap is closed.
    """

    name: str
    start: float
    end: float
    chord_fraction: float
    chord: float
    span: float
    area: float
    up: float
    down: float
    gap_sealed: bool


@dataclass(frozen=True, slots=True)
class LiftingSurface:
    """A wing, stab or fin.

    Attributes:
        name: "wing", "stab" or "fin".
        panels: From the root outwards; right side when mirrored.
        mirrored: Whether the same panels stand on the left too.
        controls: Hinged parts. A V-tail's carry both "elevator" and "rudder".
        area: Area as flown (sum of panel areas along the panels, both sides). [m²]
        span: Projected span tip to tip; height for a fin. [m]
        mean_chord: Mean aerodynamic chord. [m]
        mean_chord_x: Leading edge of the mean aerodynamic chord. [m]
        aspect_ratio: span² / area. [-]
        sits_on_body: Whether a body closes its root (a fin on a fuselage or stab).
    """

    name: str
    panels: tuple[LiftingPanel, ...]
    mirrored: bool
    controls: tuple[ControlSurface, ...]
    area: float
    span: float
    mean_chord: float
    mean_chord_x: float
    aspect_ratio: float
    sits_on_body: bool

    @property
    def quarter_chord_x(self) -> float:
        """Quarter point of the mean aerodynamic chord [m]."""
        return self.mean_chord_x + 0.25 * self.mean_chord


@dataclass(frozen=True, slots=True)
class BodyStation:
    """Cross-section of the fuselage: a rectangle.

    Attributes:
        x: [m]
        bottom: z of the underside. [m]
        top: z of the top. [m]
        width: [m]
    """

    x: float
    bottom: float
    top: float
    width: float


@dataclass(frozen=True, slots=True)
class Body:
    """The fuselage.

    Attributes:
        build: "profile" or "box".
        stations: Nose to tail.
        length: [m]
        frontal_area: Largest cross-section. [m²]
        wetted_area: [m²]
        side_area: Area of the side view. [m²]
    """

    build: str
    stations: tuple[BodyStation, ...]
    length: float
    frontal_area: float
    wetted_area: float
    side_area: float


@dataclass(frozen=True, slots=True)
class Airframe:
    """The plane as the air sees it.

    Attributes:
        wing: Main surface.
        stab: Horizontal tail (or V-tail, mirrored with dihedral).
        fin: Vertical tail; None for a V-tail.
        body: Fuselage.
        thrust_point: Where the propeller's centre is. [m]
        thrust_axis: Unit vector of the thrust. [-]
        propeller_diameter: [m]
        board_thickness: [m]
        gear_area: Frontal area of wheels and legs; 0 for a belly lander. [m²]
    """

    wing: LiftingSurface
    stab: LiftingSurface
    fin: LiftingSurface | None
    body: Body
    thrust_point: Vector
    thrust_axis: Vector
    propeller_diameter: float
    board_thickness: float
    gear_area: float
