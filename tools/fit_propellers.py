"""Fit the propeller model to a folder of wind-tunnel tables and print the module that ships.

Usage: python tools/fit_propellers.py FOLDER [OUTPUT]

FOLDER holds props_index.csv, props_static.csv and props_dynamic.csv of the University of Illinois
propeller data (Brandt, Deters, Ananda, Selig). First each propeller is described by thirteen
parameters of its curves, then by thirteen figures (foamwright.power.curves says which), and those
are regressed on what is printed on a propeller by a pooled linear model: what all have in common,
what a kind adds, what a blade line adds, each pulled towards nothing with its own strength. The
report leaves each propeller of the kinds that are sold out in turn, so that what it prints is never
learnt by heart.
"""

import csv
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

from foamwright.power.curves import (
    FIGURES,
    KINDS,
    PARAMETERS,
    REFERENCE_FLOW,
    Array,
    coefficients_of,
    figures_of_parameters,
    label_features,
    parameters_of_figures,
)
from foamwright.power.sharpen import READING_ERROR

# The type column of the tables in the words of the design file; the last is seldom sold.
KIND_OF_TYPE = {
    "slowfly": "slow flight",
    "thinelec": "electric",
    "sport": "sport",
    "folding": "folding",
    "directdrive": "direct drive",
    "freeflight": "free flight",
}
SOLD = KINDS[:5]
# Groups of features as label_features lists them: all (1, L, L², ln D), kinds (1, L, ln D), lines
# (1, L, ln D); how large each feature usually is, and how strong its group may be, in standard
# deviations of what is regressed. Chosen by leaving each propeller out in turn; 0.4 or 2.5 times
# any of them moves the medians of the errors below by up to 2 and the 90th percentiles by up to 4
# per cent of the value, most by less than a quarter of that.
SIZES = (1.0, 0.25, 0.08, 0.2, 1.0, 0.25, 0.2, 1.0, 0.25, 0.2)
STRENGTHS = {
    "thrust": (2.0, 2.0, 0.3, 0.25, 0.3, 0.6, 0.2, 1.5, 0.2, 0.25),
    "bend": (0.5, 0.5, 0.075, 0.0625, 0.075, 0.15, 0.05, 0.375, 0.05, 0.0625),  # a quarter of it
    "angle": (2.0, 2.0, 0.01, 0.01, 0.1, 0.2, 0.05, 1.0, 0.3, 0.15),
    "power": (2.0, 2.0, 0.1, 0.1, 0.3, 0.6, 0.1, 1.0, 0.3, 0.25),
    "growth": (2.0, 2.0, 0.1, 0.1, 0.3, 0.1, 0.1, 0.5, 0.5, 0.1),
}
NOISE = {"thrust": 0.3, "bend": 0.3, "angle": 0.5, "power": 0.3, "growth": 0.3}  # likewise
BENDS = [5, 9, 10, 11, 12]  # parameters that are pulled a little towards zero


def read(folder: Path) -> list[dict]:
    """Every propeller with its label and its points (rpm, J, CT, CP)."""
    points: dict[str, list] = {}
    with (folder / "props_static.csv").open() as file:
        for row in csv.DictReader(file):
            values = (float(row["rpm"]), 0.0, float(row["ct"]), float(row["cp"]))
            points.setdefault(row["prop_id"], []).append(values)
    with (folder / "props_dynamic.csv").open() as file:
        for row in csv.DictReader(file):
            values = (float(row["rpm"]), float(row["j"]), float(row["ct"]), float(row["cp"]))
            points.setdefault(row["prop_id"], []).append(values)
    with (folder / "props_index.csv").open() as file:
        rows = list(csv.DictReader(file))
    return [
        {
            "name": row["prop_id"],
            "kind": KIND_OF_TYPE[row["type"]],
            "line": row["family"][-1],
            "diameter": float(row["diameter_in"]) * 0.0254,
            "pitch": float(row["pitch_in"]) * 0.0254,
            "static_thrust": float(row["ct0_top"]),
            "static_power": float(row["cp0_top"]),
            "zero_thrust": float(row["j_zero_thrust"]),
            "best": float(row["j_peak"]),
            "best_rpm": float(row["rpm_dyn_top"]),
            "points": np.array(points[row["prop_id"]]),
        }
        for row in rows
        if row["type"] in KIND_OF_TYPE
    ]


def flow_of(prop: dict, rpm: Array) -> Array:
    """ln(n D² / reference), the Reynolds measure of the model."""
    return np.log(rpm / 60.0 * prop["diameter"] ** 2 / REFERENCE_FLOW)


def describe(prop: dict) -> Array:
    """The parameters of one propeller from its own points."""
    rpm, advance, thrust, power = prop["points"].T
    weight = np.where(advance == 0.0, 1.0, 0.7)
    start = np.zeros(len(PARAMETERS))
    ratio = prop["pitch"] / prop["diameter"]
    zero = prop["zero_thrust"] if np.isfinite(prop["zero_thrust"]) else 1.2 * ratio
    start[:3] = np.log(prop["static_thrust"]), 0.1, np.log(zero)
    start[4:9] = 0.3, -0.3, np.log(prop["static_power"]), 0.0, 0.2
    start[9] = -0.5

    def residual(parameters: Array) -> Array:
        fitted_thrust, fitted_power = coefficients_of(parameters, advance, flow_of(prop, rpm))
        return np.concatenate([
            (fitted_thrust - thrust) / prop["static_thrust"] * weight,
            (fitted_power - power) / prop["static_power"] * weight,
            0.002 * parameters[BENDS],
        ])  # fmt: skip

    return least_squares(residual, start).x


def group_of(name: str) -> str:
    """Which strengths a figure is regressed with."""
    if name.endswith("growth"):
        return "growth"
    if name in ("thrust_1", "thrust_2"):
        return "bend"
    return "angle" if name == "angle" else "power" if "power" in name else "thrust"


def regress(features: Array, figures: Array, lines: int, names: tuple[str, ...] = FIGURES) -> Array:
    """Pooled regression of every figure on the features of the label."""
    counts = [1] * 4 + [len(KINDS)] * 3 + [lines] * 3
    table = np.empty((features.shape[1], figures.shape[1]))
    for column, name in enumerate(names):
        group = group_of(name)
        free = np.repeat(np.divide(STRENGTHS[group], SIZES), counts)
        middle = np.mean(figures[:, column])
        pull = np.diag((NOISE[group] / free) ** 2)
        wanted = features.T @ (figures[:, column] - middle)
        table[:, column] = np.linalg.solve(features.T @ features + pull, wanted)
        table[0, column] += middle
    return table


def judge(prop: dict, parameters: Array) -> tuple[float, ...]:
    """Errors of one set of parameters against the propeller's points, as the report lists them."""
    rpm, advance, thrust, power = prop["points"].T
    fitted_thrust, fitted_power = coefficients_of(parameters, advance, flow_of(prop, rpm))
    still = advance == 0.0
    near_top = np.abs(rpm - prop["best_rpm"]) < 300.0
    climb = ~still & (advance <= prop["best"]) & near_top
    flow = flow_of(prop, prop["best_rpm"])
    zero = np.exp(parameters[2] + parameters[3] * flow)
    return (
        np.mean(np.abs(fitted_thrust[still] / thrust[still] - 1.0)),
        np.mean(np.abs(fitted_power[still] / power[still] - 1.0)),
        abs(zero / prop["zero_thrust"] - 1.0),
        np.sqrt(np.mean(((fitted_thrust - thrust)[climb] / prop["static_thrust"]) ** 2)),
        np.sqrt(np.mean(((fitted_power - power)[climb] / prop["static_power"]) ** 2)),
    )


def report(title: str, errors: Array) -> None:
    """Print median and 90th percentile of every error, in per cent."""
    words = ("static CT", "static CP", "zero-thrust J", "CT curve", "CP curve")
    print(f"{title}: " + "; ".join(
        f"{word} {100 * np.nanmedian(column):.1f} / {100 * np.nanpercentile(column, 90):.1f} %"
        for word, column in zip(words, errors.T, strict=True)
    ))  # fmt: skip


def sharpen(guess: Array, spread: Array, prop: dict) -> Array:
    """Figures after one static reading of thrust and power, the fastest one."""
    still = prop["points"][prop["points"][:, 1] == 0.0]
    rpm, _, thrust, power = still[np.argmax(still[:, 0])]
    seen = np.zeros((2, len(FIGURES)))
    growth = (FIGURES.index("thrust_growth"), FIGURES.index("power_growth"))
    for row, name in enumerate(("static_thrust", "static_power")):
        seen[row, FIGURES.index(name)], seen[row, growth[row]] = 1.0, flow_of(prop, rpm)
    surprise = np.log([thrust, power]) - seen @ guess
    gain = spread @ seen.T @ np.linalg.inv(seen @ spread @ seen.T + READING_ERROR**2 * np.eye(2))
    return guess + gain @ surprise


def judged(props: list[dict], figures: Array) -> Array:
    """Errors of the figures of every propeller."""
    return np.array([
        judge(prop, parameters_of_figures(row, prop["pitch"] / prop["diameter"]))
        for prop, row in zip(props, figures, strict=True)
    ])  # fmt: skip


def cross_validate(
    props: list[dict], figures: Array, known: tuple[tuple[str, str, float], ...], tables: list
) -> list[Array]:
    """Errors of each left-out propeller, its line told or not, printed; their covariances."""
    sold = [i for i, prop in enumerate(props) if prop["kind"] in SOLD]
    some = [props[i] for i in sold]
    spreads = []
    for told in (True, False):
        asked = features_of(props, known, told=told)
        guesses = np.array([asked[i] @ tables[i] for i in sold])
        left = figures[sold] - guesses
        title = "line known" if told else "line unknown"
        report(f"label only, {title}", judged(some, guesses))
        sharpened = []
        for i, prop in enumerate(some):
            others = np.delete(left, i, 0)
            sharpened.append(sharpen(guesses[i], others.T @ others / len(others), prop))
        report(f"one static reading, {title}", judged(some, np.array(sharpened)))
        spread = left.T @ left / len(left)
        inside = np.abs(left) < 1.2816 * np.sqrt(np.diag(spread))
        held = {n: round(100 * float(v)) for n, v in zip(FIGURES, inside.mean(0), strict=True)}
        print("   80 % band holds, in %:", held)
        spreads.append(spread)
    return spreads


def tables_left_out(features: Array, figures: Array, lines: int) -> list[Array]:
    """The regression made anew without each propeller in turn."""
    return [
        regress(np.delete(features, i, 0), np.delete(figures, i, 0), lines)
        for i in range(len(features))
    ]


def features_of(
    props: list[dict], known: tuple[tuple[str, str, float], ...], *, told: bool
) -> Array:
    """Label features of every propeller, its line told or not."""
    return np.array([
        label_features(
            p["kind"], p["line"] if told else "", p["diameter"], p["pitch"], lines=known
        )
        for p in props
    ])  # fmt: skip


def shares(props: list[dict]) -> tuple[tuple[str, str, float], ...]:
    """Every line with its share of the propellers of its kind."""
    pairs = sorted({(prop["kind"], prop["line"]) for prop in props})
    kinds = [prop["kind"] for prop in props]
    count = {pair: sum((p["kind"], p["line"]) == pair for p in props) for pair in pairs}
    return tuple((*pair, round(count[pair] / kinds.count(pair[0]), 3)) for pair in pairs)


def written(name: str, table: Array) -> str:
    """A table as Python text."""
    rows = ",\n".join("    (" + ", ".join(f"{value:.5g}" for value in row) + ",)" for row in table)
    return f"{name} = (\n{rows},\n)\n"


def ranges(props: list[dict]) -> Array:
    """What was measured of every kind: diameters and pitch ratios."""
    rows = []
    for kind in KINDS:
        diameters = [p["diameter"] for p in props if p["kind"] == kind]
        ratios = [p["pitch"] / p["diameter"] for p in props if p["kind"] == kind]
        rows.append([min(diameters), max(diameters), min(ratios), max(ratios)])
    return np.array(rows)


def main(folder: str, output: str = "") -> None:
    """Fit, report, write."""
    props = read(Path(folder))
    known = shares(props)
    own = [describe(prop) for prop in props]
    report("own points", np.array([judge(p, c) for p, c in zip(props, own, strict=True)]))
    figures = np.array([
        figures_of_parameters(row, prop["pitch"] / prop["diameter"])
        for prop, row in zip(props, own, strict=True)
    ])  # fmt: skip
    features = features_of(props, known, told=True)
    table = regress(features, figures, len(known))
    listed = "".join(f"    {entry!r},\n".replace("'", '"') for entry in known)
    text = [
        '"""Propeller coefficients, written by tools/fit_propellers.py; do not edit by hand."""\n\n'
        "# ruff: noqa: E501 - a table reads better in long rows\n# fmt: off\n",
        "# kind, line, share of the line within its kind",
        f"LINES = (\n{listed})\n",
        "# rows: features of the label; columns: curves.FIGURES",
        written("TABLE", table),
    ]
    left_out = tables_left_out(features, figures, len(known))
    spreads = cross_validate(props, figures, known, left_out)
    for spread, suffix in zip(spreads, ("LINE", "KIND"), strict=True):
        text.append(f"# covariance, each propeller left out in turn; {suffix.lower()} known")
        text.append(written(f"SPREAD_{suffix}", spread))
    text.append(written("RANGES", ranges(props)))
    text[-1] = (
        "# per kind: smallest and largest diameter (m), smallest and largest pitch ratio\n"
        + text[-1]
    )
    if output:
        Path(output).write_text("\n".join(text), encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])
