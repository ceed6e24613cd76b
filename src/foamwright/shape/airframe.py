"""From the design to the plane as the air sees it."""

import math

from foamwright.core.errors import DesignError, DesignErrors
from foamwright.design.model import Design
from foamwright.shape.body import build_body, side_outline
from foamwright.shape.model import Airframe
from foamwright.shape.surfaces import build_tail, build_wing

PROPELLER_AHEAD = (
    0.035  # m from firewall to propeller: motor and adapter of the usual size; assumed
)
WHEEL_WIDTH = 0.012  # m, foam wheel; assumed
LEG_WIDTH = 0.002  # m, of a wire leg; assumed


def build_airframe(design: Design, board_thickness: float) -> Airframe:
    """The plane as the air sees it.

    Args:
        design: The design. [-]
        board_thickness: Typical thickness of its board. [m]

    Returns:
        Wing, tail, body and thrust line in their places.

    Raises:
        DesignErrors: Every part of the shape that is not possible.

    Source:
        Definition of the design file.

    Example:
        >>> round(build_airframe(design, 0.005).wing.span, 2)
        1.17
    """
    errors: list[DesignError] = []
    wing = body = stab = fin = None
    outline = ()
    try:
        outline = side_outline(design)
        body = build_body(design, board_thickness)
    except DesignError as error:
        errors.append(error)
    if outline:
        try:
            wing = build_wing(design, outline, board_thickness)
        except DesignError as error:
            errors.append(error)
        try:
            stab, fin = build_tail(design, outline, board_thickness)
        except DesignError as error:
            errors.append(error)
    if wing is None or body is None or stab is None or errors:
        raise DesignErrors(errors)
    motor = design.motor
    down, right = motor.down_thrust, motor.right_thrust
    axis = (-math.cos(down) * math.cos(right), math.cos(down) * math.sin(right), -math.sin(down))
    hub = tuple(PROPELLER_AHEAD * a for a in axis)
    return Airframe(
        wing=wing,
        stab=stab,
        fin=fin,
        body=body,
        thrust_point=(hub[0], hub[1], motor.height + hub[2]),
        thrust_axis=axis,
        propeller_diameter=design.propeller.diameter,
        board_thickness=board_thickness,
        gear_area=_gear_area(design),
    )


def _gear_area(design: Design) -> float:
    gear = design.gear
    if gear is None:
        return 0.0
    leg = math.hypot(0.5 * gear.track, gear.height)
    return 2.0 * (leg * LEG_WIDTH + gear.wheel_diameter * WHEEL_WIDTH)
