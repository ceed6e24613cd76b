"""Tables of coefficients as textbooks print them, made into the inputs of the modes."""

from dataclasses import dataclass

from foamwright.flight.motion import LongitudinalDerivatives


@dataclass(frozen=True, slots=True)
class Textbook:
    """Longitudinal coefficients in the usual notation, stability axes.

    Speed changes are made dimensionless with the speed, rates with chord/(2 V).

    Attributes:
        lift: CL in the steady flight. [-]
        drag: CD there. [-]
        lift_alpha: CL_alpha. [1/rad]
        drag_alpha: CD_alpha. [1/rad]
        pitch_alpha: Cm_alpha. [1/rad]
        lift_pitch_rate: CL_q. [-]
        pitch_pitch_rate: Cm_q. [-]
        lift_alpha_rate: CL of the alpha rate. [-]
        pitch_alpha_rate: Cm of the alpha rate. [-]
        lift_speed: CL_u; Mach number times d CL/d Mach where that is printed. [-]
        drag_speed: CD_u. [-]
        pitch_speed: Cm_u, of air and thrust together. [-]
        thrust_speed: V dT/dV over dynamic pressure and area: 0 for a thrust that does not change
            with speed, -drag for constant power; CT_xu + 2 CT_x where those are printed. [-]
    """

    lift: float
    drag: float
    lift_alpha: float
    drag_alpha: float
    pitch_alpha: float
    lift_pitch_rate: float = 0.0
    pitch_pitch_rate: float = 0.0
    lift_alpha_rate: float = 0.0
    pitch_alpha_rate: float = 0.0
    lift_speed: float = 0.0
    drag_speed: float = 0.0
    pitch_speed: float = 0.0
    thrust_speed: float = 0.0


def longitudinal_from(table: Textbook) -> LongitudinalDerivatives:
    """Derivatives along the path from a table of lift, drag and moment coefficients.

    CXu = V dT/dV/(q S) - CDu - 2 CD; CXa = CL - CDa; CZu = -CLu; CZa = -(CLa + CD); CZq = -CLq.

    Args:
        table: The coefficients. [-]

    Returns:
        Derivatives for `longitudinal_matrix`, which adds the weight's part of CZu itself.

    Valid:
        Small motions; thrust along the path.

    Source:
        [ETKIN-REID] table 5.1; [NELSON] table 3.5; in tests/validation/test_textbook_modes.py.

    Example:
        >>> table = Textbook(lift=0.41, drag=0.05, lift_alpha=4.44, drag_alpha=0.33,
        ...                  pitch_alpha=-0.683, pitch_pitch_rate=-9.96, pitch_alpha_rate=-4.36)
        >>> longitudinal_from(table).axial_speed
        -0.1
    """
    t = table
    return LongitudinalDerivatives(
        axial_speed=t.thrust_speed - t.drag_speed - 2.0 * t.drag,
        axial_alpha=t.lift - t.drag_alpha,
        normal_speed=-t.lift_speed,
        normal_alpha=-(t.lift_alpha + t.drag),
        normal_pitch_rate=-t.lift_pitch_rate,
        normal_alpha_rate=-t.lift_alpha_rate,
        pitch_speed=t.pitch_speed,
        pitch_alpha=t.pitch_alpha,
        pitch_pitch_rate=t.pitch_pitch_rate,
        pitch_alpha_rate=t.pitch_alpha_rate,
    )
