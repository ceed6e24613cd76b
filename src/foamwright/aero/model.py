"""What aero/ answers; reference sizes are the wing's area, mean aerodynamic chord and span."""

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class SectionPolar:
    """Lift, drag and moment of one section at several Reynolds numbers.

    Arrays are tuples of tuples: first index Reynolds number, second angle of attack of the chord
    line.

    Attributes:
        reynolds: Rising. [-]
        alpha: Rising. [rad]
        lift: Section lift coefficient. [-]
        drag: Section drag coefficient. [-]
        moment: About the quarter chord, nose-up positive. [-]
        lift_max: Largest lift coefficient at each Reynolds number. [-]
        zero_lift_angle: At each Reynolds number. [rad]
        lift_slope: Near zero lift at each Reynolds number. [1/rad]
        validated: Whether the section and range were compared with measurements.
        note: Words on that.
    """

    reynolds: tuple[float, ...]
    alpha: tuple[float, ...]
    lift: tuple[tuple[float, ...], ...]
    drag: tuple[tuple[float, ...], ...]
    moment: tuple[tuple[float, ...], ...]
    lift_max: tuple[float, ...]
    zero_lift_angle: tuple[float, ...]
    lift_slope: tuple[float, ...]
    validated: bool
    note: str


@dataclass(frozen=True, slots=True)
class DragItem:
    """One line of the drag table.

    Attributes:
        name: "wing section", "fuselage", "motor and pack", ...
        coefficient: On wing area, at zero lift. [-]
        source: Publication or "assumed".
    """

    name: str
    coefficient: float
    source: str


@dataclass(frozen=True, slots=True)
class Derivatives:
    """Stability and control derivatives about the CG, body axes turned to the wind.

    Rates are made dimensionless with mean_chord/(2 V) for pitch and span/(2 V) for roll and yaw;
    angles in radians.
    Lift, drag, side force, roll, pitch, yaw: first word; the cause: second.
    """

    lift_alpha: float
    lift_pitch_rate: float
    lift_elevator: float
    drag_alpha: float
    pitch_alpha: float
    pitch_pitch_rate: float
    pitch_alpha_rate: float
    pitch_elevator: float
    side_beta: float
    side_roll_rate: float
    side_yaw_rate: float
    side_rudder: float
    roll_beta: float
    roll_roll_rate: float
    roll_yaw_rate: float
    roll_aileron: float
    roll_rudder: float
    yaw_beta: float
    yaw_roll_rate: float
    yaw_yaw_rate: float
    yaw_aileron: float
    yaw_rudder: float


@dataclass(frozen=True, slots=True)
class AeroResult:
    """The whole plane in steady flight, power off, about one CG.

    Attributes:
        wing_area: [m²]
        span: [m]
        mean_chord: Mean aerodynamic chord. [m]
        mean_chord_x: Its leading edge. [m]
        neutral_point_x: Stick fixed, with fuselage. [m]
        static_margin: (neutral point - CG) / mean chord. [-]
        lift_slope: Whole plane. [1/rad]
        zero_lift_angle: Of the fuselage line, elevator neutral. [rad]
        lift_max: Largest trimmed lift coefficient. [-]
        lift_max_untrimmed: Wing alone. [-]
        stall_speed: Level, power off, at this mass. [m/s]
        stall_start: Where along the half span the wing stalls first, fraction 0 to 1. [-]
        stall_words: "root first", "tip first" and so on, in one sentence.
        drag_items: Drag at zero lift, line by line.
        drag_zero: Sum of the above. [-]
        drag_lift_factor: CD = drag_zero + factor * (CL - lift_at_drag_min)². [-]
        lift_at_drag_min: [-]
        max_lift_drag: Largest trimmed L/D. [-]
        best_glide_speed: [m/s]
        downwash_slope: d(downwash at the tail)/d(alpha). [-]
        tail_volume_horizontal: [-]
        tail_volume_vertical: [-]
        trim_elevator: Elevator for level flight at trim_speed, TE down positive. [rad]
        trim_speed: 1.4 times stall speed. [m/s]
        hands_off_lift: Lift coefficient at which the plane trims with neutral elevator; None
            when none. [-]
        cg_forward: Foremost CG at which full up elevator still holds the stall. [m]
        cg_aft: Rearmost CG: static margin 5 %. [m]
        roll_rate: Steady roll rate at trim_speed with full aileron; 0 without. [rad/s]
        adverse_yaw: Yaw moment over roll moment with aileron, at 1.2 Vs; 0 without. [-]
        hinge_moments: Control name -> largest aerodynamic hinge moment at top_speed, one servo's
            share. [N m]
        derivatives: About the CG at trim_speed.
        uncertainty: Result name -> one standard deviation, absolute, same unit.
        notes: Extrapolations and assumptions, in words.
        trim_alpha: Of the fuselage line at trim_speed. [rad]
        tail_pitch: Pitching moment coefficient of the stab alone about the CG, at trim_speed. [-]
        tail_pitch_alpha: Its change with angle of attack. [1/rad]
        fin_yaw_beta: Yawing moment per sideslip of the fin (or V-tail) alone about the CG. [1/rad]
        aileron_stall_start: Where the side with its aileron down stalls first, fraction of the
            half span; None without ailerons. [-]
        aileron_stall_words: One sentence on it; empty without ailerons.
        aileron_drops: Whether the side with its aileron down stalls outboard and much earlier.
        tail_own_pitch: The part of tail_pitch from the stab's own setting and elevator. [-]
        wing_pitch: Pitching moment coefficient of the wing alone about the CG, its sections' own in
            it, at trim_speed. [-]
        wing_pitch_alpha: Its change with angle of attack. [1/rad]
        derivative_spread: Derivative name -> one standard deviation, absolute, same unit.
    """

    wing_area: float
    span: float
    mean_chord: float
    mean_chord_x: float
    neutral_point_x: float
    static_margin: float
    lift_slope: float
    zero_lift_angle: float
    lift_max: float
    lift_max_untrimmed: float
    stall_speed: float
    stall_start: float
    stall_words: str
    drag_items: tuple[DragItem, ...]
    drag_zero: float
    drag_lift_factor: float
    lift_at_drag_min: float
    max_lift_drag: float
    best_glide_speed: float
    downwash_slope: float
    tail_volume_horizontal: float
    tail_volume_vertical: float
    trim_elevator: float
    trim_speed: float
    hands_off_lift: float | None
    cg_forward: float
    cg_aft: float
    roll_rate: float
    adverse_yaw: float
    hinge_moments: dict[str, float]
    derivatives: Derivatives
    uncertainty: dict[str, float]
    notes: tuple[str, ...]
    trim_alpha: float = 0.0
    tail_pitch: float = 0.0
    tail_pitch_alpha: float = 0.0
    fin_yaw_beta: float = 0.0
    aileron_stall_start: float | None = None
    aileron_stall_words: str = ""
    aileron_drops: bool = False
    tail_own_pitch: float = 0.0
    wing_pitch: float = 0.0
    wing_pitch_alpha: float = 0.0
    derivative_spread: dict[str, float] = field(default_factory=dict[str, float])
