"""Fit the propeller model to a folder of wind-tunnel tables and print the module that ships.

Usage: python tools/fit_propellers.py FOLDER [OUTPUT]

FOLDER holds props_index.csv, props_static.csv and props_dynamic.csv of the University of Illinois
propeller data (Brandt, Deters, Ananda, Selig). First each propeller is described by eleven numbers
(foamwright.power.curves says which), then those are regressed on what is printed on a propeller,
by the mean of two pooled linear models: one with set strengths, one whose strengths are the most
likely ones. The report leaves each propeller out in turn, the strengths found anew each time, so
that what it prints is never learnt by heart.
"""

import csv
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares, minimize

from foamwright.power.curves import (
    KINDS,
    PARAMETERS,
    REFERENCE_FLOW,
    Array,
    coefficients_of,
    label_features,
)

# The type column of the tables in the words of the design file; other types are not sold.
KIND_OF_TYPE = {
    "slowfly": "slow flight",
    "thinelec": "electric",
    "sport": "sport",
    "folding": "folding",
    "directdrive": "direct drive",
}
GENTLE = {"kind": 3.0, "line": 0.05, "square": 0.03, "size": 0.3, "slope": 0.3}
FIRM = {"kind": 3.0, "line": 0.05, "square": 10.0, "size": 1.0, "slope": 10.0}
LINE_SLOPE, LINE_SIZE = 0.1, 0.3  # chosen by leaving each propeller out in turn, as the above
FIRM_PARAMETERS = ("thrust_growth", "advance", "advance_growth", "power_growth")
NEVER = 1e9  # pull that leaves a feature out
# share of the second model; left out in turn, only the thrust gains by it
LIKELY_SHARE = {name: 0.75 if "thrust" in name else 0.0 for name in PARAMETERS}
USUAL, USUAL_SPREAD = -1.5, 1.0  # ln of the strength of a group of features against the data's own
NOISE, NOISE_SPREAD = -1.0, 1.0
READING = 0.02  # error of a static reading in the report, relative


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


def groups(lines: int) -> tuple[Array, Array]:
    """Which group each feature belongs to, and the usual size of its square, as label_features."""
    kinds = len(KINDS)
    counts = [1, 1, 1, 1, kinds, kinds, kinds, lines, lines, lines, lines]
    sizes = [1.0, 0.04, 0.004, 0.04, 1.0, 0.04, 0.04, 1.0, 0.04, 0.004, 0.04]
    return np.repeat(np.arange(len(counts)), counts), np.repeat(sizes, counts)


def ridge(setting: dict, lines: int) -> Array:
    """Diagonal that pulls every feature towards zero, in the order of label_features."""
    pulls = [1e-6, 0.02, setting["square"], setting["size"]]
    pulls += [setting["kind"], setting["slope"], NEVER]
    pulls += [setting["line"], LINE_SLOPE, NEVER, LINE_SIZE]
    return np.array(pulls)[groups(lines)[0]]


def likely(features: Array, target: Array, lines: int) -> Array:
    """Pooled regression whose strength of each group of features is the most likely one."""
    group, size = groups(lines)
    middle, spread = np.mean(target), np.std(target) + 1e-9
    scaled = (target - middle) / spread
    many = len(target)

    def covariance(strengths: Array) -> Array:
        weights = np.exp(2.0 * strengths[group]) / size
        return (features * weights) @ features.T + np.exp(2.0 * strengths[-1]) * np.eye(many)

    def unlikely(strengths: Array) -> float:
        root = np.linalg.cholesky(covariance(strengths))
        usual = ((strengths[:-1] - USUAL) / USUAL_SPREAD) ** 2
        noise = ((strengths[-1] - NOISE) / NOISE_SPREAD) ** 2
        fits = np.linalg.solve(root, scaled)
        logs = np.log(np.diag(root)).sum()
        return float(0.5 * fits @ fits + logs + 0.5 * usual.sum() + 0.5 * noise)

    start = np.full(group[-1] + 2, -1.2)
    best = minimize(
        unlikely, start, method="L-BFGS-B", bounds=[(-4.0, 1.5)] * (len(start) - 1) + [(-3.0, 0.5)]
    ).x
    weights = np.exp(2.0 * best[group]) / size
    column = spread * weights * (features.T @ np.linalg.solve(covariance(best), scaled))
    column[0] += middle
    return column


def regress(
    features: Array, targets: Array, lines: int, names: tuple[str, ...] = PARAMETERS
) -> Array:
    """Regression of every parameter on the features of the label, the mean of both models."""
    table = np.empty((features.shape[1], targets.shape[1]))
    for column, name in enumerate(names):
        pull = np.diag(ridge(FIRM if name in FIRM_PARAMETERS else GENTLE, lines))
        set_so = np.linalg.solve(features.T @ features + pull, features.T @ targets[:, column])
        share = LIKELY_SHARE[name]
        second = likely(features, targets[:, column], lines) if share else 0.0
        table[:, column] = (1.0 - share) * set_so + share * second
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
    """Guess after one static reading of thrust and power, the fastest one."""
    still = prop["points"][prop["points"][:, 1] == 0.0]
    rpm, _, thrust, power = still[np.argmax(still[:, 0])]
    flow = flow_of(prop, rpm)
    seen = np.zeros((2, len(PARAMETERS)))
    seen[0, :2] = 1.0, flow
    seen[1, 6:8] = 1.0, flow
    surprise = np.log([thrust, power]) - seen @ guess
    gain = spread @ seen.T @ np.linalg.inv(seen @ spread @ seen.T + READING**2 * np.eye(2))
    return guess + gain @ surprise


def cross_validate(
    props: list[dict], targets: Array, known: tuple[tuple[str, str, float], ...], tables: list
) -> list[Array]:
    """Errors of each left-out propeller, its line told or not, printed; their covariances."""
    spreads = []
    for told in (True, False):
        asked = features_of(props, known, told=told)
        guesses = np.array([row @ table for row, table in zip(asked, tables, strict=True)])
        left = targets - guesses
        title = "line known" if told else "line unknown"
        report(
            f"label only, {title}",
            np.array([judge(p, g) for p, g in zip(props, guesses, strict=True)]),
        )
        sharpened = []
        for i, prop in enumerate(props):
            others = np.delete(left, i, 0)
            sharpened.append(
                judge(prop, sharpen(guesses[i], others.T @ others / len(others), prop))
            )
        report(f"one static reading, {title}", np.array(sharpened))
        spread = left.T @ left / len(left)
        inside = np.abs(left) < 1.2816 * np.sqrt(np.diag(spread))
        held = {n: round(100 * float(v)) for n, v in zip(PARAMETERS, inside.mean(0), strict=True)}
        print("   80 % band holds, in %:", held)
        spreads.append(spread)
    return spreads


def tables_left_out(features: Array, targets: Array, lines: int) -> list[Array]:
    """The regression made anew without each propeller in turn."""
    return [
        regress(np.delete(features, i, 0), np.delete(targets, i, 0), lines)
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
    targets = np.array([describe(prop) for prop in props])
    report("own points", np.array([judge(p, t) for p, t in zip(props, targets, strict=True)]))
    features = features_of(props, known, told=True)
    table = regress(features, targets, len(known))
    listed = "".join(f"    {entry!r},\n".replace("'", '"') for entry in known)
    text = [
        '"""Propeller coefficients, written by tools/fit_propellers.py; do not edit by hand."""\n\n'
        "# ruff: noqa: E501 - a table reads better in long rows\n# fmt: off\n",
        "# kind, line, share of the line within its kind",
        f"LINES = (\n{listed})\n",
        "# rows: features of the label; columns: parameters",
        written("TABLE", table),
    ]
    spreads = cross_validate(props, targets, known, tables_left_out(features, targets, len(known)))
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
