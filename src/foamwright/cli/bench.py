"""`foamwright bench`: take readings of a wattmeter, a tachometer and a kitchen scale."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.prop import CAUTION
from foamwright.cli.reading import FILE, open_plane
from foamwright.core.unit_table import GRAVITY, UNITS

if TYPE_CHECKING:
    from foamwright.power.model import PowerTrain
    from foamwright.power.reading import BenchResult, Compared

FAILS = 1

SHOWN = {"voltage": ("V", 1.0), "current": ("A", 1.0), "speed": ("rpm", 9.549296585513721),
         "thrust": ("g of pull", 1000.0 / GRAVITY)}  # fmt: skip
OUNCES = ("oz of pull", 1.0 / UNITS["thrust"]["ozf"])
QUESTIONS = {
    "volts": "Volts under load, such as 11.2 V (Enter: not read)",
    "amps": "Amps, such as 14 A (Enter: not read)",
    "rpm": "Rpm, such as 8200 (Enter: not read)",
    "thrust": "Pull on the scale, such as 620 g or 22 oz (Enter: not read)",
    "rest": "Volts just before, motor off, such as 12.5 V (Enter: not read)",
}


def _asked() -> dict[str, str]:
    """Ask on the terminal; Enter leaves a figure out."""
    said: dict[str, str] = {}
    for key, question in QUESTIONS.items():
        answer: str = click.prompt(question, default="", show_default=False, err=True)
        if answer.strip():
            said[key] = answer.strip()
    return said


def learnt_text(before: PowerTrain, result: BenchResult, *, units: str) -> str:
    """What the readings taught, for people.

    Args:
        before: The train as from labels and stock. [-]
        result: What was learnt. [-]
        units: "metric" or "inch". [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> learnt_text(train, result, units="metric")  # doctest: +SKIP
    """
    from foamwright.cli.table import paragraph, table
    from foamwright.core.units import format_value

    rows = [_compared(item, units) for item in result.compared]
    head = ["reading", "figure", "read", "model before", "model after", "surprise"]
    text = [table(rows, head=head, right="rlrrrr")]
    text += ["", *(paragraph(words, first="! ", indent="  ") for words in result.contradictions)]
    text += [table(_constants(before, result), head=["", "before (band)", "after (band)"])]
    thrust, amps = result.thrust_band, result.current_band
    pull = [format_value(x, "thrust", units) for x in (thrust.typical, thrust.low, thrust.high)]
    text.append(
        f"\nFull throttle, full pack: {pull[0]} ({pull[1]} to {pull[2]}), "
        f"{amps.typical:.1f} A ({amps.low:.1f} to {amps.high:.1f} A)."
    )
    if result.advice:
        text.append("What to read next:")
        text += [f"  {words}" for words in result.advice[:3]]
    return "\n".join(text)


def _compared(item: Compared, units: str) -> list[str]:
    inch = units == "inch" and item.name == "thrust"
    unit, factor = OUNCES if inch else SHOWN[item.name]
    figures = [_figure(factor * value) for value in (item.read, item.before, item.after)]
    return [str(item.reading + 1), unit, *figures, f"{item.surprise:+.1f}"]


def _figure(value: float) -> str:
    """Four digits, never as a power of ten."""
    return f"{value:.0f}" if value >= 1000.0 else f"{value:.4g}"


def _constants(old: PowerTrain, result: BenchResult) -> list[list[str]]:
    new = result.train
    losses = old.controller_loss, new.controller_loss  # over 1 - duty
    rows: list[list[str]] = []
    for words, unit, factor, was, now in (
        ("motor Kv", "Kv", 9.549296585513721, old.motor.kv, new.motor.kv),
        ("motor resistance", "mohm", 1000.0, old.motor.resistance, new.motor.resistance),
        ("motor no-load current", "A", 1.0, old.motor.no_load_current, new.motor.no_load_current),
        ("pack resistance", "mohm", 1000.0, old.pack.resistance, new.pack.resistance),
    ):
        cells = [
            f"{_figure(factor * band.typical)} {unit} "
            f"({_figure(factor * band.low)} to {_figure(factor * band.high)})"
            for band in (was, now)
        ]
        rows.append([words, *cells])
    rows.append(
        ["lost in the controller at half throttle", *(f"{50 * each:.0f} %" for each in losses)]
    )
    for words, name in (("thrust", "thrust"), ("power", "power")):
        was, now = (getattr(p.propeller, f"{name}_spread") for p in (old, new))
        scale = getattr(new.propeller, f"{name}_scale")
        rows.append(
            [f"propeller {words}", f"x 1.00 +- {100 * was:.0f} %",
             f"x {scale:.2f} +- {100 * now:.0f} %"]
        )  # fmt: skip
    return rows


@click.command(short_help="Take in readings of a bench run.")
@click.argument("file", type=FILE)
@click.option("--volts", help="At the pack under load, such as '11.2 V'.")
@click.option("--amps", help="From the pack, such as '14 A'.")
@click.option("--rpm", help="Of the propeller, such as 8200.")
@click.option("--thrust", help="On the scale, such as '620 g', '22 oz' or '6 N'.")
@click.option("--throttle", help="Share of the throttle stick, such as '60 %'.  [default: full]")
@click.option("--rest", help="Of the pack just before, motor off, such as '12.5 V'.")
@click.option("--no-propeller", is_flag=True, help="Run without the propeller.")
@click.option("--try", "trial", is_flag=True, help="Show what it would teach; keep nothing.")
@click.option("--keep", "force", is_flag=True, help="Keep a reading that contradicts the others.")
def bench(  # noqa: PLR0913 - a command has as many arguments as options
    file: Path,
    volts: str | None,
    amps: str | None,
    rpm: str | None,
    thrust: str | None,
    throttle: str | None,
    rest: str | None,
    no_propeller: bool,
    trial: bool,
    force: bool,
) -> int:
    """Take in one reading of a bench run: any of volts, amps, rpm and thrust.

    Readings are kept in NAME.bench.toml beside the design; each sharpens motor, propeller and pack.
    Without any figure it asks for them on a terminal, and elsewhere shows what was learnt so far.
    """
    from foamwright.cli.table import paragraph
    from foamwright.power.bench import first_advice, learn_from_bench
    from foamwright.power.train import build_train
    from foamwright.readings import add_reading, load_readings, parts_of, reading_of

    click.echo(paragraph(CAUTION, first="Cautions: ", indent="  ") + "\n")
    plane = open_plane(file)
    said: dict[str, object] = {
        key: value
        for key, value in zip(
            ("volts", "amps", "rpm", "thrust", "rest", "throttle"),
            (volts, amps, rpm, thrust, rest, throttle),
            strict=True,
        )
        if value is not None
    }
    if not said and sys.stdin.isatty():
        said.update(_asked())
    if said and no_propeller:
        said["propeller"] = False
    parts = parts_of(plane.design)
    kept = load_readings(file, parts=parts)
    aside = len(load_readings(file)) - len(kept)
    if aside:
        click.echo(f"{aside} readings were taken with other parts and are left aside.\n")
    readings = [*kept, reading_of(said)] if said else list(kept)
    if not readings:
        advice = first_advice(plane.train, density=plane.air.density)
        click.echo("No reading is kept yet. What would help most:")
        click.echo("\n".join(f"  {words}" for words in advice[:3]))
        return 0
    before = build_train(plane.design, plane.stock)
    result = learn_from_bench(before, readings, density=plane.air.density)
    click.echo(learnt_text(before, result, units=plane.design.units))
    if said and result.contradictions and not (trial or force):
        click.echo("Not kept, because it contradicts; --keep keeps it all the same.")
        return FAILS
    if said and not trial:
        from datetime import date

        day = date.today()  # noqa: DTZ011 - the day on the builder's calendar
        written = add_reading(
            file,
            {"when": day.isoformat(), "parts": "; ".join(parts), **said},
        )
        click.echo(f"kept in {written}")
    return 0
