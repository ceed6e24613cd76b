"""`foamwright listen`: propeller speed or the speed of a fly-by from a phone's recording."""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from foamwright.cli.reading import FILE, open_plane, refuse_to_overwrite

if TYPE_CHECKING:
    from foamwright.plane import Plane
    from foamwright.sound.model import BenchSound, FlyBySound

RPM = 30.0 / math.pi
FOOT = 0.3048  # m, exact by definition
TEMPERATURE = "15 degC"


def bench_text(heard: BenchSound) -> str:
    """What a bench recording told, for people.

    Args:
        heard: What was found. [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> bench_text(heard)  # doctest: +SKIP
        '8210 rpm ...'
    """
    from foamwright.cli.table import table

    rows = [
        [
            f"{stretch.start:.1f} to {stretch.end:.1f} s",
            f"{stretch.blade_pass:.1f} Hz",
            f"{stretch.speed * RPM:.0f}",
            f"± {max(1.0, stretch.speed_spread * RPM):.0f}",
            f"{stretch.height:.0f} dB",
        ]
        for stretch in heard.stretches
    ]
    head = ["steady from", "blades pass", "rpm", "", "over noise"]
    best = heard.best
    return (
        f"{table(rows, head=head, right='lrrrr')}\n\n"
        f"Fastest steady: {best.speed * RPM:.0f} rpm ± {max(1.0, best.speed_spread * RPM):.0f} "
        f"with {heard.blades} blades."
    )


def fly_by_text(heard: FlyBySound, units: str) -> str:
    """What a fly-by told, for people.

    Args:
        heard: What was found. [-]
        units: "metric" or "inch". [-]

    Returns:
        Lines. [-]

    Source:
        Definition.

    Example:
        >>> fly_by_text(heard, "metric")  # doctest: +SKIP
        'Airspeed 14.2 m/s ...'
    """
    from foamwright.cli.table import table
    from foamwright.core.units import format_value

    def speed(value: float) -> str:
        return format_value(value, "speed", units)

    rows = [
        [
            one.recording,
            f"{one.time:.1f} s",
            f"{one.approaching:.0f} / {one.receding:.0f} Hz",
            f"{speed(one.speed)} ± {speed(one.speed_spread)}",
            f"{one.distance / FOOT:.0f} ft" if units == "inch" else f"{one.distance:.0f} m",
        ]
        for one in heard.passes
    ]
    head = ["recording", "nearest at", "coming / going", "over the ground", "distance"]
    what = "Ground speed" if heard.wind is None else "Airspeed"
    told = f"{what} {speed(heard.speed)} ± {speed(heard.speed_spread)}"
    if heard.wind is not None:
        told += f"; wind along the first pass {speed(heard.wind)} (behind it when positive)"
    return f"{table(rows, head=head, right='lrrrr')}\n\n{told}."


@click.command(short_help="Hear propeller speed or airspeed in a phone's recording.")
@click.argument("recordings", nargs=-1, required=True, type=FILE, metavar="RECORDING...")
@click.option("--fly-by", is_flag=True, help="The plane flies past: tell its speed.")
@click.option(
    "--blades", type=click.IntRange(1, 12), help="Of the propeller.  [default: of --plane, or 2]"
)
@click.option("--plane", "file", type=FILE, help="Design file that the reading belongs to.")
@click.option("--log", "keep", is_flag=True, help="Keep the reading beside --plane, unasked.")
@click.option(
    "--temperature",
    help="Of the air, such as '20 degC' or '68 degF'.  [default: of --plane, or 15 degC]",
)
@click.option("--picture", type=FILE, help="Picture of the spectrum to write: .png, .svg or .pdf.")
@click.option("--overwrite", is_flag=True, help="Replace a picture that is there already.")
def listen(
    recordings: tuple[Path, ...],
    fly_by: bool,
    blades: int | None,
    file: Path | None,
    keep: bool,
    temperature: str | None,
    picture: Path | None,
    overwrite: bool,
) -> int:
    """Hear the propeller's speed on the bench, or with --fly-by the speed of a plane going past.

    Any sound or video file of a phone will do; it stays on this machine. For the airspeed fly past
    both ways at one throttle, in one recording or in two.
    """
    from foamwright.sound.picture import draw_sound
    from foamwright.sound.read import read_recording

    if keep and file is None:
        raise click.UsageError("--log needs --plane FILE, the design that the reading belongs to.")
    if picture is not None:
        refuse_to_overwrite(picture, overwrite)
    plane = open_plane(file) if file is not None else None
    taken = [read_recording(path) for path in recordings]
    heard = _passes(taken, plane, temperature) if fly_by else _bench(taken, plane, blades)
    from foamwright.cli.table import paragraph
    from foamwright.sound.model import BenchSound

    units = plane.design.units if plane else "metric"
    told = bench_text(heard) if isinstance(heard, BenchSound) else fly_by_text(heard, units)
    click.echo(told)
    for words in heard.notes:
        click.echo(paragraph(words, first="! ", indent="  "))
    if picture is not None:
        click.echo(f"wrote {draw_sound(taken, heard, picture)}")
    if file is not None:
        _offer(file, heard, keep)
    return 0


def _bench(taken: Sequence[object], plane: Plane | None, blades: int | None) -> BenchSound:
    from foamwright.sound.bench import propeller_speed
    from foamwright.sound.model import Recording

    first = taken[0]
    if len(taken) > 1 or not isinstance(first, Recording):
        raise click.UsageError("One bench recording at a time; several go with --fly-by.")
    count = blades or (plane.design.propeller.blades if plane else 2)
    expected = plane.power.static_speed if plane else None
    return propeller_speed(first, blades=count, expected=expected)


def _passes(taken: Sequence[object], plane: Plane | None, temperature: str | None) -> FlyBySound:
    from foamwright.core.air import air_at
    from foamwright.core.errors import DesignError
    from foamwright.core.units import UnitError, parse
    from foamwright.sound.fly_by import fly_by_speed
    from foamwright.sound.model import Recording

    if temperature is None and plane is not None:
        air = plane.air
    else:
        try:
            air = air_at(0.0, parse(temperature or TEMPERATURE, "temperature"))
        except UnitError as error:
            raise DesignError("--temperature", error.got, error.allowed, error.fix) from None
    recordings = [one for one in taken if isinstance(one, Recording)]
    return fly_by_speed(recordings, speed_of_sound=air.speed_of_sound)


def _offer(file: Path, heard: BenchSound | FlyBySound, keep: bool) -> None:
    """Keep the reading when told to, or ask on a terminal."""
    from foamwright.sound.model import BenchSound

    if not keep and not (
        sys.stdin.isatty() and click.confirm("Keep this reading beside the design?", err=True)
    ):
        click.echo("Not kept; --log keeps it beside the design.")
        return
    from datetime import date

    today = date.today().isoformat()  # noqa: DTZ011 - the builder's day
    if isinstance(heard, BenchSound):
        from foamwright.readings import add_reading

        words = {"when": today, "rpm": round(heard.best.speed * RPM)}
        click.echo(f"kept in {add_reading(file, words)}")
        return
    from foamwright.logbook.store import add_entry, log_file

    said = {"spread": f"{heard.speed_spread:.2f} m/s"}
    if heard.wind is None:
        said["ground_speed"] = f"{heard.speed:.2f} m/s"
    else:
        said["airspeed"] = f"{heard.speed:.2f} m/s"
        said["wind"] = f"{abs(heard.wind):.1f} m/s"
    entry = add_entry(file, "heard", said)
    click.echo(f"kept as entry {entry.number} in {log_file(file)}")
