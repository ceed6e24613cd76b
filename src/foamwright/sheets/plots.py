"""Plots of strength, mass and balance: span load, bending, what weighs what, pack, heat, builds."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import numpy as np

from foamwright.balance.envelope import cg_over_pack
from foamwright.core.errors import OutputError
from foamwright.core.files import write_atomically
from foamwright.strength.heat import over_temperature
from foamwright.strength.loads import span_load
from foamwright.strength.side_cases import joint_places
from foamwright.strength.wing_section import wing_sections

if TYPE_CHECKING:
    from foamwright.plane import Plane

DOTS = 110  # dots an inch of a .png
FORMATS = ("svg", "png", "pdf")
BARS = 14  # heaviest things shown by name; the rest is one bar
FREEZING = 273.15  # K
LIKELY = 0.25  # opacity of a band


def strength_figure(plane: Plane) -> Any:  # noqa: ANN401 - the library has no types
    """Span load, bending moment against strength with its margin, and glue against heat.

    Args:
        plane: The plane. [-]

    Returns:
        A matplotlib figure. [-]

    Source:
        foamwright.strength.

    Example:
        >>> type(strength_figure(plane)).__name__
        'Figure'
    """
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.0, 8.6), layout="constrained")
    load, bending, heat = figure.subplots(3, 1)
    _span_load(load, plane)
    _bending(bending, plane)
    _heat(heat, plane)
    load.set_title(f"{plane.design.name}: estimates; proof-load the wing by hand before it flies")
    for axis in (load, bending, heat):
        axis.grid(visible=True, alpha=0.3)
        axis.legend(fontsize="small", frameon=False)
    return figure


def _span_load(axis: Any, plane: Plane) -> None:  # noqa: ANN401 - the library has no types
    sections = wing_sections(plane.design, plane.airframe, plane.stock)
    loads, needed = plane.loads, plane.strength.needed_load_factor
    at = np.linspace(0.0, float(sections.places[-1]), 80)
    chords = np.interp(at, sections.places, sections.chords)
    square = np.interp(
        at / at[-1], [*loads.lift_places, 1.0], [*(s * s for s in loads.lift_shape), 0.0]
    )
    shape = np.sqrt(square)
    lattice = span_load(at, chords, mass=loads.mass, wing_mass=0.0, shape=shape)
    schrenk = span_load(at, chords, mass=loads.mass, wing_mass=0.0)
    weight = span_load(at, chords, mass=0.0, wing_mass=loads.wing_mass)
    axis.plot(1000 * at, needed * lattice.lift, color="tab:blue", label="lift, lattice")
    axis.plot(1000 * at, needed * schrenk.lift, ":", color="tab:blue", label="lift, Schrenk")
    axis.plot(1000 * at, needed * weight.lift, color="tab:gray", label="the wing's own mass")
    axis.set_ylabel(f"N/m at {needed:.1f} g")
    axis.set_ylim(top=1.25 * needed * float(lattice.lift.max()))


def _bending(axis: Any, plane: Plane) -> None:  # noqa: ANN401 - the library has no types
    strength = plane.strength
    at = 1000 * np.array(strength.stations)
    moment, holds = np.array(strength.bending_moment), np.array(strength.bending_strength)
    skin = [f for f in strength.failures if f.id.startswith("wing_")]
    if skin:
        band = min(skin, key=lambda f: f.load_factor).load_factor_band
        low, high = band.low / band.typical, band.high / band.typical
        axis.fill_between(at, low * holds, high * holds, alpha=LIKELY, color="tab:green")
    axis.plot(at, holds, color="tab:green", label="section holds, with its band")
    axis.plot(at, moment, color="tab:red", label=f"bending at {strength.needed_load_factor:.1f} g")
    root = max(float(moment[0]), 1e-9)
    for joint in joint_places(plane.design, plane.airframe, plane.parts):
        found = next((f for f in strength.failures if f.id == joint.id), None)
        if found is not None:
            one_g = float(np.interp(1000 * joint.place, at, moment)) / strength.needed_load_factor
            height = min(found.load_factor * one_g, 3.0 * root)
            axis.plot(1000 * joint.place, height, "v", color="black", markersize=5)
    axis.plot([], [], "v", color="black", label="joints hold (drawn to 3 times the root)")
    ratio = np.where(moment > 0.02 * root, holds / np.maximum(moment, 1e-9), np.inf)
    worst = int(np.argmin(ratio))
    axis.annotate(
        f"margin {100 * (ratio[worst] - 1):+.0f} %",
        (at[worst], holds[worst]),
        textcoords="offset points",
        xytext=(8, 8),
    )
    axis.set_xlabel("mm along the half span")
    axis.set_ylabel("N m")
    axis.set_ylim(0.0, 3.2 * root)


def _heat(axis: Any, plane: Plane) -> None:  # noqa: ANN401 - the library has no types
    temperatures = np.linspace(283.15, 348.15, 27)
    curves = over_temperature(
        plane.design,
        plane.airframe,
        plane.stock,
        loads=plane.loads,
        temperatures=tuple(temperatures.tolist()),
    )
    words = {
        "centre_joint": "centre joint, g",
        "firewall_glue": "firewall glue in a nose-in, times its load",
        "attachment": "glued wing seat, g",
    }
    for name, label in words.items():
        if name in curves:
            axis.plot(temperatures - FREEZING, curves[name], label=label)
    axis.axvspan(45.0, 60.0, alpha=0.12, color="tab:orange", label="parked car, summer sun")
    axis.set_xlabel("°C in the glue")
    axis.set_ylabel("holds")
    axis.set_ylim(bottom=0.0)


def balance_figure(plane: Plane) -> Any:  # noqa: ANN401 - the library has no types
    """What weighs what, and the balance point against the place of the pack with its limits.

    Args:
        plane: The plane. [-]

    Returns:
        A matplotlib figure. [-]

    Source:
        foamwright.balance.

    Example:
        >>> type(balance_figure(plane)).__name__
        'Figure'
    """
    from matplotlib.figure import Figure

    figure = Figure(figsize=(7.0, 8.6), layout="constrained")
    bars, envelope = figure.subplots(2, 1, height_ratios=[3, 2])
    _mass_bars(bars, plane)
    _envelope(envelope, plane)
    for axis in (bars, envelope):
        axis.grid(visible=True, alpha=0.3)
    return figure


def _mass_bars(axis: Any, plane: Plane) -> None:  # noqa: ANN401 - the library has no types
    sums: dict[str, list[float]] = {}
    for line in plane.balance.lines:
        row = sums.setdefault(line.name.partition(",")[0], [0.0, 0.0, 0.0, 0.0])
        mass = line.mass
        for k, value in enumerate((mass.low, mass.typical, mass.high, line.cg_shift)):
            row[k] += value
    rows = sorted(sums.items(), key=lambda row: -row[1][1])
    shown, rest = rows[:BARS], rows[BARS:]
    if rest:
        table = np.array([values for _, values in rest]).sum(axis=0)
        shown.append((f"{len(rest)} other things", table.tolist()))
    shown.reverse()
    names = [name for name, _ in shown]
    low, typical, high, shift = 1000 * np.array([values for _, values in shown]).T
    axis.barh(names, typical, xerr=[typical - low, high - typical], color="tab:blue", alpha=0.7)
    for row, (mass, moves) in enumerate(zip(high.tolist(), shift.tolist(), strict=True)):
        axis.annotate(
            f"{abs(moves):.0f} mm {'aft' if moves > 0 else 'fwd'}",
            (mass, row),
            textcoords="offset points",
            xytext=(5, -3),
            fontsize="x-small",
        )
    axis.set_xlim(right=1.25 * float(high.max()))
    band = plane.balance.mass_band
    axis.set_title(
        f"{plane.design.name}: {1000 * band.typical:.0f} g "
        f"({1000 * band.low:.0f} to {1000 * band.high:.0f} g)"
    )
    axis.set_xlabel("g; beside each bar how far it moves the balance point")


def _envelope(axis: Any, plane: Plane) -> None:  # noqa: ANN401 - the library has no types
    aero, balance = plane.aero, plane.balance
    curve = cg_over_pack(balance)
    place, cg = 1000 * np.array(curve.places), 1000 * np.array(curve.cg)
    axis.fill_between(
        place, 1000 * np.array(curve.low), 1000 * np.array(curve.high), alpha=LIKELY,
        color="tab:blue",
    )  # fmt: skip
    axis.plot(place, cg, color="tab:blue", label="balance point, with its band")
    axis.axhspan(
        1000 * aero.cg_forward, 1000 * aero.cg_aft, alpha=0.15, color="tab:green", label="allowed"
    )
    for margin in (0.12, 0.20):
        level = 1000 * (aero.neutral_point_x - margin * aero.mean_chord)
        axis.axhline(level, linestyle=":", color="tab:green")
        axis.annotate(f"static margin {100 * margin:.0f} %", (place[0], level), fontsize="x-small")
    at = plane.parts.items
    pack = next((item for item in at if item.id == "pack"), None)
    if pack is not None:
        axis.plot(1000 * pack.at[0], 1000 * balance.cg[0], "o", color="black", label="as designed")
    axis.set_xlabel("middle of the pack, mm behind the nose")
    axis.set_ylabel("balance point, mm behind the nose")
    axis.legend(fontsize="small", frameon=False)


def draw_plot(figure: Any, path: Path, *, overwrite: bool = False) -> Path:  # noqa: ANN401 - no types
    """Write a figure to a file.

    Args:
        figure: From strength_figure or balance_figure. [-]
        path: Ends in .svg, .png or .pdf. [-]
        overwrite: Whether a file that is there may be replaced. [-]

    Returns:
        The path.

    Raises:
        OutputError: Another ending, or the file cannot be written.

    Source:
        Definition.

    Example:
        >>> draw_plot(balance_figure(plane), Path("balance.svg")).name
        'balance.svg'
    """
    import io

    import matplotlib as mpl

    ending = path.suffix.lower().lstrip(".")
    if ending not in FORMATS:
        raise OutputError(f"{path.name} must end in {', '.join('.' + f for f in FORMATS)}.")
    buffer = io.BytesIO()
    # Fixed ids and no date: the same plane gives the same bytes.
    with mpl.rc_context({"svg.hashsalt": "foamwright"}):
        stamp = {"svg": {"Date": None}, "pdf": {"CreationDate": None}}.get(ending, {})
        figure.savefig(buffer, format=ending, dpi=DOTS, metadata=stamp)
    write_atomically(path, buffer.getvalue(), overwrite=overwrite)
    return path
