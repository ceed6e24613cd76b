"""Fit the propeller model to a folder of wind-tunnel tables and print the module that ships.

Usage: python tools/fit_propellers.py FOLDER [OUTPUT]

FOLDER holds props_index.csv, props_static.csv and props_dynamic.csv of the University of Illinois
propeller data (Brandt, Deters, Ananda, Selig). First each propeller is described by eleven numbers
(foamwright.power.curves says which), then those are regressed on what is printed on a propeller.
The report leaves each propeller out in turn, so that what it prints is never learnt by heart.
"""

import csv
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

from foamwright.power.curves import (
    KINDS,
    PARAMETERS,
    REFERENCE_FLOW,
    Array,
    coefficients_of,
    label_features,
)

# The type column of the tables in the words of the design file; the last three are not sold.
KIND_OF_TYPE = {
    "slowfly": "slow flight",
    "thinelec": "electric",
    "sport": "sport",
    "folding": "folding",
    "directdrive": "direct drive",
    "freeflight": "free flight",
    "micro": "micro",
    "research": "research",
}
APART = ("free flight", "micro", "research")  # in the fit, but not counted in the report
GENTLE = {"kind": 3.0, "line": 0.05, "square": 0.03, "size": 0.3, "slope": 0.3}
FIRM = {"kind": 3.0, "line": 0.05, "square": 10.0, "size": 1.0, "slope": 10.0}
LINE_SLOPE, LINE_SIZE = 0.1, 0.3  # chosen by leaving each propeller out in turn, as the above
FIRM_PARAMETERS = ("thrust_growth", "advance", "advance_growth", "power_growth")


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
    ]


def flow_of(prop: dict, rpm: Array) -> Array:
    """ln(n D² / reference), the Reynolds measure of the model."""
    return np.log(rpm / 60.0 * prop["diameter"] ** 2 / REFERENCE_FLOW)


def describe(prop: dict) -> Array:
    """The eleven parameters of one propeller from its own points."""
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
            0.01 * parameters[[5, 10]],
        ])  # fmt: skip

    return least_squares(residual, start).x


def ridge(setting: dict, lines: int) -> Array:
    """Diagonal that pulls every feature towards zero, in the order of label_features."""
    kinds = len(KINDS)
    return np.array(
        [1e-6, 0.02, setting["square"], setting["size"]]
        + [setting["kind"]] * kinds
        + [setting["slope"]] * kinds
        + [setting["line"]] * lines
        + [LINE_SLOPE] * lines
        + [LINE_SIZE] * lines
    )


def regress(features: Array, targets: Array, lines: int) -> Array:
    """Ridge regression of every parameter on the features of the label."""
    table = np.empty((features.shape[1], targets.shape[1]))
    for column, name in enumerate(PARAMETERS):
        setting = FIRM if name in FIRM_PARAMETERS else GENTLE
        pull = np.diag(ridge(setting, lines))
        table[:, column] = np.linalg.solve(
            features.T @ features + pull, features.T @ targets[:, column]
        )
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


def sharpen(guess: Array, spread: Array, truth: Array) -> Array:
    """Guess after one static reading of thrust and power."""
    seen = [PARAMETERS.index("static_thrust"), PARAMETERS.index("static_power")]
    gain = spread[:, seen] @ np.linalg.inv(spread[np.ix_(seen, seen)] + 1e-4 * np.eye(2))
    return guess + gain @ (truth - guess)[seen]


def cross_validate(
    props: list[dict], targets: Array, known: tuple[tuple[str, str, float], ...], *, told: bool
) -> Array:
    """Leave each propeller out in turn, its line told or not; print errors, return covariance."""
    keep = np.array([prop["kind"] not in APART for prop in props])
    features = features_of(props, known, told=True)
    asked = features_of(props, known, told=told)
    guesses = np.array([
        asked[i]
        @ regress(np.delete(features, i, 0), np.delete(targets, i, 0), len(known))
        for i in range(len(props))
    ])  # fmt: skip
    left = targets - guesses
    title = "line known" if told else "line unknown"
    judged = [judge(p, g) for p, g in zip(props, guesses, strict=True)]
    report(f"label only, {title}", np.array(judged)[keep])
    sharpened = []
    for i, prop in enumerate(props):
        others = keep.copy()
        others[i] = False
        spread = left[others].T @ left[others] / others.sum()
        sharpened.append(judge(prop, sharpen(guesses[i], spread, targets[i])))
    report(f"one static reading, {title}", np.array(sharpened)[keep])
    spread = left[keep].T @ left[keep] / keep.sum()
    inside = np.abs(left[keep]) < 1.2816 * np.sqrt(np.diag(spread))
    held = {n: round(100 * float(v)) for n, v in zip(PARAMETERS, inside.mean(0), strict=True)}
    print("   80 % band holds, in %:", held)
    return spread


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
    targets = np.array([describe(prop) for prop in props])
    report("own points", np.array([judge(p, t) for p, t in zip(props, targets, strict=True)]))
    table = regress(features_of(props, known, told=True), targets, len(known))
    listed = "".join(f"    {entry!r},\n".replace("'", '"') for entry in known)
    text = [
        '"""Propeller coefficients, written by tools/fit_propellers.py; do not edit by hand."""\n\n'
        "# ruff: noqa: E501 - a table reads better in long rows\n# fmt: off\n",
        "# kind, line, share of the line within its kind",
        f"LINES = (\n{listed})\n",
        "# rows: features of the label; columns: parameters",
        written("TABLE", table),
    ]
    for told, suffix in ((True, "LINE"), (False, "KIND")):
        spread = cross_validate(props, targets, known, told=told)
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
