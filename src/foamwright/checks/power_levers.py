"""Levers on propeller, motor, controller and pack."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.levers import (
    INCH,
    Lever,
    Step,
    Values,
    choice_lever,
    grid,
    listed,
    together,
)
from foamwright.checks.shape_levers import capacity_lever

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.stock.model import MotorStock

HALF_INCH = 0.5 * INCH  # propellers are sold in inches everywhere
LARGEST = 0.33  # m, propeller a small foam plane can swing; common practice, no source
CONTROLLER_SIZES = (6.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0)  # A, as sold
KV_ALIKE = (0.55, 1.3)  # Kv over that of the present motor: may swap, propeller kept; assumed


def diameter_lever(plane: Plane, *, bigger: bool) -> Lever | None:
    """Propeller diameter in steps of half an inch, pitch kept.

    Args:
        plane: The plane. [-]
        bigger: Else smaller. [-]

    Returns:
        The lever.

    Source:
        Sizes sold; common practice, no source.

    Example:
        >>> diameter_lever(plane, bigger=True).name
        'propeller'
    """
    present = plane.design.propeller.diameter
    end = min(1.4 * present, LARGEST) if bigger else max(0.6 * present, 0.1)
    if (end > present) != bigger:
        return None
    return together("propeller", _propellers(plane, "diameter", grid(present, end, HALF_INCH)))


def pitch_lever(plane: Plane, *, more: bool) -> Lever | None:
    """Propeller pitch in steps of half an inch, diameter kept.

    Args:
        plane: The plane. [-]
        more: Else less. [-]

    Returns:
        The lever.

    Source:
        Sizes sold; common practice, no source.

    Example:
        >>> pitch_lever(plane, more=True).name
        'propeller'
    """
    propeller = plane.design.propeller
    end = 0.95 * propeller.diameter if more else 0.35 * propeller.diameter
    if (end > propeller.pitch) != more:
        return None
    return together("propeller", _propellers(plane, "pitch", grid(propeller.pitch, end, HALF_INCH)))


def _propellers(plane: Plane, changed: str, values: tuple[float, ...]) -> list[Step]:
    had = plane.design.propeller
    steps: list[Step] = []
    for value in values:
        diameter = value if changed == "diameter" else had.diameter
        pitch = value if changed == "pitch" else had.pitch
        words = (
            f"propeller {diameter / INCH:.3g} x {pitch / INCH:.3g} in instead of "
            f"{had.diameter / INCH:.3g} x {had.pitch / INCH:.3g} in"
        )
        steps.append(Step({f"propeller.{changed}": value}, words))
    return steps


def scaled_propeller_lever(plane: Plane, *, bigger: bool) -> Lever | None:
    """Propellers of about the same pitch over diameter.

    Args:
        plane: The plane. [-]
        bigger: Else smaller. [-]

    Returns:
        The lever.

    Source:
        Sizes sold; common practice, no source.

    Example:
        >>> scaled_propeller_lever(plane, bigger=False).name
        'propeller'
    """
    had = plane.design.propeller
    end = min(1.4 * had.diameter, LARGEST) if bigger else max(0.5 * had.diameter, 0.1)
    if (end > had.diameter) != bigger:
        return None
    steps: list[Step] = []
    for diameter in grid(had.diameter, end, HALF_INCH):
        pitch = round(diameter * had.pitch / had.diameter / HALF_INCH) * HALF_INCH
        words = (
            f"propeller {diameter / INCH:.3g} x {pitch / INCH:.3g} in instead of "
            f"{had.diameter / INCH:.3g} x {had.pitch / INCH:.3g} in"
        )
        values: Values = {"propeller.diameter": diameter, "propeller.pitch": round(pitch, 6)}
        steps.append(Step(values, words))
    return together("propeller", steps)


def cells_lever(plane: Plane, *, more: bool) -> Lever | None:
    """One cell more or less.

    Args:
        plane: The plane. [-]
        more: Else fewer. [-]

    Returns:
        The lever; None at the end of what is sold.

    Source:
        Definition.

    Example:
        >>> cells_lever(plane, more=True).name
        'cells'
    """
    pack = plane.design.pack
    cells = pack.cells + (1 if more else -1)
    if not 1 <= cells <= 4:
        return None
    values: dict[str, float | str] = {"pack.cells": cells}
    if pack.mass is not None:
        values["pack.mass"] = pack.mass * cells / pack.cells
    if pack.resistance is not None:
        values["pack.resistance"] = pack.resistance * cells / pack.cells
    return together("cells", [Step(values, f"{cells}-cell pack instead of {pack.cells}-cell")])


def controller_lever(plane: Plane) -> Lever | None:
    """The next larger speed controllers.

    Args:
        plane: The plane. [-]

    Returns:
        The lever.

    Source:
        Stock tables, else sizes sold; common practice, no source.

    Example:
        >>> len(controller_lever(plane).steps) > 0
        True
    """
    controller = plane.design.controller
    if controller.current is not None:
        had = controller.current
        return together(
            "controller",
            [
                Step(
                    {"controller.current": size}, f"controller {size:.0f} A instead of {had:.0f} A"
                )
                for size in CONTROLLER_SIZES
                if size > had
            ],
        )
    entries = plane.stock.controllers
    had_current = entries[controller.stock].current
    larger = sorted(
        (entry for entry in entries.values() if entry.current > had_current),
        key=lambda entry: entry.current,
    )
    return choice_lever(plane, "controller.stock", "", options=[entry.name for entry in larger])


def motor_lever(plane: Plane) -> Lever | None:
    """Motors of like Kv that stand the propeller better, nearest first.

    Args:
        plane: The plane. [-]

    Returns:
        The lever; None where the design types the motor's own figures.

    Source:
        Stock tables.

    Example:
        >>> len(motor_lever(plane).steps) > 0
        True
    """
    motor = plane.design.motor
    typed = (motor.kv, motor.mass, motor.resistance, motor.max_current)
    if any(value is not None for value in typed) or motor.stock not in plane.stock.motors:
        return None
    had = plane.stock.motors[motor.stock]
    reserve = _reserve(had)
    cooler = sorted(
        (
            entry
            for entry in plane.stock.motors.values()
            if _reserve(entry) > reserve
            and KV_ALIKE[0] < entry.kv.typical / had.kv.typical < KV_ALIKE[1]
        ),
        key=_reserve,
    )
    return choice_lever(plane, "motor.stock", "", options=[entry.name for entry in cooler])


def _reserve(motor: MotorStock) -> float:
    """Current limit over Kv squared: with one propeller and pack the current goes about as Kv²."""
    return motor.max_current.typical / motor.kv.typical**2


def less_current(plane: Plane) -> tuple[Lever, ...]:
    """What draws less current at full throttle.

    Args:
        plane: The plane. [-]

    Returns:
        Levers.

    Source:
        Definition.

    Example:
        >>> [lever.name for lever in less_current(plane)][0]
        'propeller'
    """
    return listed(
        scaled_propeller_lever(plane, bigger=False),
        pitch_lever(plane, more=False),
        diameter_lever(plane, bigger=False),
        cells_lever(plane, more=False),
    )


def more_thrust(plane: Plane) -> tuple[Lever, ...]:
    """What pulls harder.

    Args:
        plane: The plane. [-]

    Returns:
        Levers.

    Source:
        Definition.

    Example:
        >>> [lever.name for lever in more_thrust(plane)][0]
        'propeller'
    """
    return listed(
        diameter_lever(plane, bigger=True),
        pitch_lever(plane, more=True),
        cells_lever(plane, more=True),
        motor_lever(plane),
        capacity_lever(plane, bigger=False),
    )
