"""Pictures of many throws: paths, height over time, and the map over throw speed and throttle."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any

import numpy as np

from foamwright.flight.simulation.throws import AWAY, ENDS

if TYPE_CHECKING:
    from foamwright.flight.simulation.study import OutcomeMap
    from foamwright.flight.simulation.throws import Launch, Thrown
    from foamwright.plane import Plane

LINES = 60  # paths drawn; more is one grey mass
COLOURS = ("tab:green", "tab:red", "tab:orange", "tab:purple", "tab:brown", "black")
MPH, FOOT = 0.44704, 0.3048
CAUTION = "computed; no clearance to fly near people"


def _title(plane: Plane, launch: Launch) -> str:
    speed = launch.thrower.speed + launch.thrower.run_up
    said = f"{speed / MPH:.0f} mph" if plane.design.units == "inch" else f"{speed:.1f} m/s"
    air = "still air" if launch.wind == 0.0 else "wind"
    return f"{plane.design.name}: thrown at {said}, throttle {100 * launch.throttle:.0f} %, {air}"


def _scale(plane: Plane) -> tuple[float, str]:
    return (1.0 / FOOT, "ft") if plane.design.units == "inch" else (1.0, "m")


def _some(thrown: Thrown) -> np.ndarray:
    """Every end drawn, those that fail first: they are what one looks for."""
    order = np.argsort(thrown.end == AWAY, kind="stable")
    failed = int((thrown.end != AWAY).sum())
    few = order[: min(failed, LINES // 2)]
    return np.concatenate([few, order[failed : failed + LINES - len(few)]])


def _legend(axis: Any, thrown: Thrown) -> None:  # noqa: ANN401 - the library has no types
    for kind, name in enumerate(ENDS):
        share = float((thrown.end == kind).mean())
        if share > 0.0:
            axis.plot([], [], color=COLOURS[kind], label=f"{name}: {100 * share:.1f} %")
    axis.legend(fontsize="small", frameon=False, loc="upper left")


def paths_figure(plane: Plane, launch: Launch, thrown: Thrown) -> Any:  # noqa: ANN401 - the library has no types
    """Paths from the side and from above.

    Args:
        plane: The plane. [-]
        launch: How it was thrown. [-]
        thrown: What became of the throws. [-]

    Returns:
        A matplotlib figure. [-]

    Source:
        foamwright.flight.simulation.

    Example:
        >>> paths_figure(plane, launch, thrown)  # doctest: +SKIP
    """
    from matplotlib.figure import Figure

    scale, unit = _scale(plane)
    figure = Figure(figsize=(7.0, 6.4), layout="constrained")
    side, above = figure.subplots(2, 1, sharex=True)
    states = thrown.path.states * scale
    for k in _some(thrown).tolist():
        colour = COLOURS[int(thrown.end[k])]
        side.plot(states[:, k, 0], -states[:, k, 2], color=colour, alpha=0.5, linewidth=0.8)
        above.plot(states[:, k, 0], -states[:, k, 1], color=colour, alpha=0.5, linewidth=0.8)
        if thrown.end[k] != AWAY:
            side.plot(states[-1, k, 0], -states[-1, k, 2], "x", color=colour, markersize=5)
            above.plot(states[-1, k, 0], -states[-1, k, 1], "x", color=colour, markersize=5)
    side.axhline(0.0, color="tab:olive", linewidth=2)
    side.set_ylabel(f"height, {unit}")
    above.set_ylabel(f"to the left, {unit}")
    above.set_xlabel(f"ahead of the hand, {unit} ({CAUTION})")
    side.set_title(_title(plane, launch), fontsize="medium")
    _legend(side, thrown)
    for axis in (side, above):
        axis.grid(visible=True, alpha=0.3)
    return figure


def height_figure(plane: Plane, launch: Launch, thrown: Thrown) -> Any:  # noqa: ANN401 - the library has no types
    """Height over the first seconds, one line a throw, and the middle half as a band.

    Args:
        plane: The plane. [-]
        launch: How it was thrown. [-]
        thrown: What became of the throws. [-]

    Returns:
        A matplotlib figure. [-]

    Source:
        foamwright.flight.simulation.

    Example:
        >>> height_figure(plane, launch, thrown)  # doctest: +SKIP
    """
    from matplotlib.figure import Figure

    scale, unit = _scale(plane)
    figure = Figure(figsize=(7.0, 4.2), layout="constrained")
    axis = figure.subplots()
    times, height = thrown.path.times, thrown.path.height * scale
    low, middle, high = np.quantile(height, [0.1, 0.5, 0.9], axis=1)
    axis.fill_between(times, low, high, color="tab:green", alpha=0.15, label="eight of ten throws")
    axis.plot(times, middle, color="tab:green", linewidth=2)
    for k in _some(thrown).tolist():
        if thrown.end[k] == AWAY:
            continue
        until = times <= thrown.ended[k] + 1e-9
        colour = COLOURS[int(thrown.end[k])]
        axis.plot(times[until], height[until, k], color=colour, alpha=0.6, linewidth=0.8)
    hand = launch.hands.reaction
    axis.axvline(hand, color="black", linestyle=":", linewidth=1)
    axis.annotate("hand on the stick", (hand, 0.5), xycoords=("data", "axes fraction"),
                  textcoords="offset points", xytext=(4, 2), fontsize="small")  # fmt: skip
    axis.axhline(0.0, color="tab:olive", linewidth=2)
    axis.set_xlim(0.0, min(float(times[-1]), 4.0))
    shown = times <= 4.0
    axis.set_ylim(-0.3 * scale, 1.15 * max(float(high[shown].max()), 2.5 * scale))
    axis.set_xlabel(f"s after the release ({CAUTION})")
    axis.set_ylabel(f"height of the CG, {unit}")
    axis.set_title(_title(plane, launch), fontsize="medium")
    axis.grid(visible=True, alpha=0.3)
    _legend(axis, thrown)
    return figure


def map_figure(plane: Plane, launch: Launch, outcomes: OutcomeMap) -> Any:  # noqa: ANN401 - the library has no types
    """Share that flies away over throw speed and throttle, with what ends the others.

    Args:
        plane: The plane. [-]
        launch: How it was thrown. [-]
        outcomes: The map. [-]

    Returns:
        A matplotlib figure. [-]

    Source:
        foamwright.flight.simulation.study.

    Example:
        >>> map_figure(plane, launch, outcomes)  # doctest: +SKIP
    """
    from matplotlib.figure import Figure

    imperial = plane.design.units == "inch"
    scale, unit = (1.0 / MPH, "mph") if imperial else (1.0, "m/s")
    speeds, sticks = outcomes.speeds * scale, 100.0 * outcomes.throttles
    figure = Figure(figsize=(7.0, 5.2), layout="constrained")
    axis = figure.subplots()
    image = axis.pcolormesh(
        sticks, speeds, 100.0 * outcomes.shares, cmap="RdYlGn", vmin=0.0, vmax=100.0, alpha=0.85
    )
    for i, speed in enumerate(speeds.tolist()):
        for j, stick in enumerate(sticks.tolist()):
            others = outcomes.ends[i, j].copy()
            others[AWAY] = 0.0
            word = ENDS[int(others.argmax())] if others.max() > 0.15 else ""
            text = f"{100 * outcomes.shares[i, j]:.0f}\n{word}"
            axis.text(stick, speed, text, ha="center", va="center", fontsize=7)
    figure.colorbar(image, ax=axis, label="% that fly away")
    thrower = launch.thrower
    axis.plot(100.0 * launch.throttle, scale * (thrower.speed + thrower.run_up), "o", color="black",
              fillstyle="none", markersize=18)  # fmt: skip
    stall = plane.aero.stall_speed * scale
    axis.axhline(stall, color="black", linestyle="--", linewidth=1)
    axis.annotate("stall speed", (0.01, stall), xycoords=("axes fraction", "data"),
                  textcoords="offset points", xytext=(2, 3), fontsize="small")  # fmt: skip
    axis.set_xlabel(f"throttle, % ({CAUTION})")
    axis.set_ylabel(f"speed of the throw, {unit}")
    air = "still air" if launch.wind == 0.0 else f"wind {launch.wind * scale:.0f} {unit}"
    up = math.degrees(thrower.angle)
    axis.set_title(f"{plane.design.name}: thrown {up:.0f} deg up, {air}", fontsize="medium")
    return figure
