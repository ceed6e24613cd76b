"""Pictures of performance: thrust and drag, current and power, endurance, over airspeed."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from foamwright.core.errors import OutputError
from foamwright.core.files import write_atomically
from foamwright.core.units import format_value

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.power.model import PowerTrain

POINTS = 60
MIDDLE = 0.4  # share of the pack drawn
DOTS = 110  # dots an inch of a .png; keeps it below 200 kB
FORMATS = ("svg", "png", "pdf")
MPH = 0.44704
ABOVE_STALL = 1.03  # where the curves begin; at the stall itself the drag is a wall


def performance_figure(plane: Plane, train: PowerTrain) -> Any:  # noqa: ANN401 - the library has no types
    """Three plots over airspeed: thrust and drag, current and power, endurance.

    Args:
        plane: The plane. [-]
        train: Its power train. [-]

    Returns:
        A matplotlib figure, as a notebook shows it. [-]

    Source:
        foamwright.power.operate, foamwright.flight.mission.

    Example:
        >>> type(performance_figure(plane, plane.train)).__name__
        'Figure'
    """
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.0, 8.4), layout="constrained")
    axes = figure.subplots(3, 1, sharex=True)
    imperial = plane.design.units == "inch"
    scale = 1.0 / MPH if imperial else 1.0
    _thrust_and_drag(axes[0], plane, train, scale=scale)
    _current_and_power(axes[1], plane, train, scale=scale)
    _endurance(axes[2], plane, train, scale=scale)
    axes[2].set_xlabel(f"airspeed, {'mph' if imperial else 'm/s'}")
    axes[0].set_title(f"{plane.design.name}: still air, pack two fifths drawn")
    for axis in axes:
        axis.grid(visible=True, alpha=0.3)
        axis.set_ylim(bottom=0.0)
        axis.legend(fontsize="small", frameon=False)
    return figure


def _speeds(plane: Plane) -> np.ndarray:
    performance = plane.flight.performance
    stall = plane.aero.stall_speed
    top = max(1.15 * performance.top_speed, 2.0 * stall)
    return np.linspace(ABOVE_STALL * stall, top, POINTS)


def _thrust_and_drag(
    axis: Any,  # noqa: ANN401 - the library has no types
    plane: Plane,
    train: PowerTrain,
    *,
    scale: float,
) -> None:
    from foamwright.flight.curves import level_drag
    from foamwright.power.operate import thrust_at
    from foamwright.power.stick import duty_of

    speeds = _speeds(plane)
    performance = plane.flight.performance
    density, mass = plane.air.density, plane.balance.all_up_mass
    still = np.linspace(0.0, float(speeds[-1]), POINTS)
    for stick, style in ((1.0, "-"), (0.75, "--"), (0.5, ":")):
        duty = float(duty_of(stick))
        thrust = thrust_at(train, still, throttle=duty, density=density, depth_of_discharge=MIDDLE)
        axis.plot(
            scale * still, np.where(thrust > 0.0, thrust, np.nan), style, color="tab:blue",
            label=f"thrust, stick {100 * stick:.0f} %",
        )  # fmt: skip
    drag = level_drag(plane.aero, mass, speed=speeds, density=density)
    axis.plot(scale * speeds, drag, color="tab:red", label="drag in level flight")
    level, climb = performance.level_speed, performance.climb_speed
    rising = format_value(performance.climb_rate, "speed", plane.design.units)
    # level and climb lie close together: one name to the left of its point, one to the right
    points = (
        (level, "level", "right"),
        (climb, f"best climb, {rising}", "left"),
        (performance.top_speed, "top", "left"),
    )
    for speed, words, side in points:
        height = float(np.interp(speed, speeds, drag))
        axis.plot(scale * speed, height, "o", color="black", markersize=4)
        axis.annotate(
            words, (scale * speed, height), textcoords="offset points", ha=side,
            xytext=(4 if side == "left" else -4, 6),
            bbox={"facecolor": "white", "edgecolor": "none", "alpha": 0.7, "pad": 1.0},
        )  # fmt: skip
    axis.set_ylabel("N")


def _current_and_power(
    axis: Any,  # noqa: ANN401 - the library has no types
    plane: Plane,
    train: PowerTrain,
    *,
    scale: float,
) -> None:
    from foamwright.flight.mission import endurance_over_speed
    from foamwright.power.operate import power_map

    speeds = _speeds(plane)
    density = plane.air.density
    _, level = endurance_over_speed(
        plane.aero, train, plane.balance.all_up_mass, speeds=speeds, density=density
    )
    full = power_map(train, speeds, np.ones(1), density=density, depth_of_discharge=MIDDLE)
    axis.plot(scale * speeds, full.current[:, 0], color="tab:blue", label="amps, full throttle")
    held = np.where(level > 0.0, level, np.nan)
    axis.plot(scale * speeds, held, color="tab:green", label="amps, level flight")
    axis.set_ylabel("A")
    watts = axis.twinx()
    watts.plot(
        scale * speeds, full.electric_power[:, 0], "--", color="tab:gray",
        label="watts, full throttle (right)",
    )  # fmt: skip
    watts.set_ylim(bottom=0.0)
    watts.set_ylabel("W")
    watts.legend(fontsize="small", frameon=False, loc="lower right")


def _endurance(
    axis: Any,  # noqa: ANN401 - the library has no types
    plane: Plane,
    train: PowerTrain,
    *,
    scale: float,
) -> None:
    from foamwright.flight.mission import endurance_over_speed

    speeds = _speeds(plane)
    times, _ = endurance_over_speed(
        plane.aero, train, plane.balance.all_up_mass, speeds=speeds, density=plane.air.density
    )
    minutes = np.where(times > 0.0, times / 60.0, np.nan)
    axis.plot(scale * speeds, minutes, color="tab:green", label="level flight, 20 % kept")
    axis.set_ylabel("min")


def draw_performance(plane: Plane, train: PowerTrain, path: Path) -> Path:
    """Write the performance picture.

    Args:
        plane: The plane. [-]
        train: Its power train. [-]
        path: A .svg, .png or .pdf to write or replace. [-]

    Returns:
        The path written.

    Raises:
        OutputError: Another kind of file, or it cannot be written.

    Source:
        Definition.

    Example:
        >>> draw_performance(plane, plane.train, Path("cob-power.svg")).name
        'cob-power.svg'
    """
    from io import BytesIO

    import matplotlib

    kind = path.suffix.lower().removeprefix(".")
    if kind not in FORMATS:
        raise OutputError(f"{path} ends in '{path.suffix}'; a picture ends in .svg, .png or .pdf.")
    buffer = BytesIO()
    # no date and no random ids, so that the same plane gives the same file
    nothing = {"svg": {"Date": None}, "pdf": {"CreationDate": None}, "png": {"Software": None}}
    with matplotlib.rc_context({"svg.hashsalt": "foamwright"}):
        performance_figure(plane, train).savefig(
            buffer, format=kind, dpi=DOTS, metadata=nothing[kind]
        )
    write_atomically(path, buffer.getvalue(), overwrite=True)
    return path
