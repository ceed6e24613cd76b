"""`foamwright throw`: thousands of hand launches of the plane, how they end, and what helps."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from foamwright.cli.reading import FILE, open_plane, refuse_to_overwrite

if TYPE_CHECKING:
    from foamwright.flight.simulation.flaws import Flaws
    from foamwright.flight.simulation.story import Story
    from foamwright.flight.simulation.study import BestThrow, Changes
    from foamwright.flight.simulation.throws import Launch, Thrown
    from foamwright.plane import Plane

LEVELS = ("beginner", "returning", "experienced")
CARE = {"exact": 0.0, "careful": 1.0, "rough": 2.5}
PLOTS = ("paths", "height", "map")
DRAWN = (".svg", ".png", ".pdf")
TRIED = 120  # throws each way of throwing and each change is tried with
MAPPED = 40  # throws a square of the map
CAUTION = (
    "A simulation is no clearance to fly near people. First launch: over long grass, into the "
    "wind, nobody ahead or beside, fingers behind the propeller's disc, a helper throws and the "
    "pilot keeps both hands on the sticks; range check, control directions and balance first. "
    "Your club's and your country's rules come before anything printed here."
)


def launch_for(plane: Plane, options: Mapping[str, Any]) -> Launch:
    """The launch that options and design describe.

    Args:
        plane: The plane. [-]
        options: Values of speed, angle, throttle, wind, wind_from, run, behind, pilot; None or
            absent takes the design's or the usual. [SI]

    Returns:
        The launch. [-]

    Raises:
        ModelError: A throw that no hand makes.

    Source:
        Definition.

    Example:
        >>> launch_for(plane, {"throttle": 0.8}).throttle
        0.8
    """
    from dataclasses import replace

    from foamwright.flight.simulation.hands import hands_of
    from foamwright.flight.simulation.thrower import RUN_UP, refuse_throw, thrower_for
    from foamwright.flight.simulation.throws import Launch

    pilot = plane.design.pilot
    speed = options.get("speed")
    thrower = thrower_for(
        plane.balance.all_up_mass,
        speed=pilot.throw_speed if speed is None else speed,
        height=pilot.throw_height,
    )
    angle = options.get("angle")
    thrower = replace(
        thrower,
        angle=thrower.angle if angle is None else angle,
        run_up=RUN_UP if options.get("run") else 0.0,
        hold="behind" if options.get("behind") else "below",
    )
    refuse_throw(thrower)
    return Launch(
        thrower=thrower,
        hands=hands_of(options.get("pilot") or pilot.level),
        throttle=options.get("throttle", 0.7),
        wind=options.get("wind") or 0.0,
        wind_from=options.get("wind_from") or 0.0,
    )


def builds_for(care: str, count: int, seed: int) -> Flaws:
    """Builds of one design, as carefully made as said.

    Args:
        care: "exact", "careful" or "rough". [-]
        count: Builds. [-]
        seed: Of the random numbers. [-]

    Returns:
        Their flaws. [-]

    Source:
        foamwright.flight.simulation.thrower; rough is 2.5 times careful, assumed.

    Example:
        >>> builds_for("careful", 4, 1).count
        4
    """
    from foamwright.flight.simulation.thrower import BuildSpread, builds_of

    usual = BuildSpread()
    scaled = {name: getattr(usual, name) * CARE[care] for name in BuildSpread.__slots__}
    return builds_of(BuildSpread(**scaled), count, seed)


def _answer(
    plane: Plane, launch: Launch, story: Story, *, best: BestThrow | None, changes: Changes | None
) -> dict[str, Any]:
    from dataclasses import asdict

    from foamwright.core.words import in_units

    def outcome(one: Any) -> dict[str, Any]:  # noqa: ANN401 - an Outcome
        return {
            "name": in_units(one.variant.name, "metric"),
            "share": one.share,
            "clean": one.clean,
            "gain": one.gain,
            "error": one.error,
            "worst": one.worst,
        }

    answer: dict[str, Any] = {"name": plane.design.name, "launch": asdict(launch)}
    answer["story"] = asdict(story)
    if best is not None:
        answer["best"] = {
            "throttle": best.throttle,
            "angle": best.angle,
            "speed": best.speed,
            "throttles": [outcome(o) for o in best.throttles],
            "angles": [outcome(o) for o in best.angles],
            "speeds": [outcome(o) for o in best.speeds],
        }
    if changes is not None:
        answer["changes"] = {
            "throttle": changes.throttle,
            "share": changes.share,
            "outcomes": [outcome(o) for o in changes.outcomes],
        }
    answer["caution"] = CAUTION
    return answer


def _plot(plane: Plane, launch: Launch, thrown: Thrown, *, kind: str, path: Path, seed: int,
          care: str) -> Path:  # fmt: skip
    from foamwright.flight.simulation.study import outcome_map
    from foamwright.sheets.plots import draw_plot
    from foamwright.sheets.throw_picture import height_figure, map_figure, paths_figure

    if kind == "map":
        builds = builds_for(care, MAPPED, seed)
        figure = map_figure(plane, launch, outcome_map(plane.flawed, launch, builds, seed=seed))
    else:
        make = paths_figure if kind == "paths" else height_figure
        figure = make(plane, launch, thrown)
    return draw_plot(figure, path, overwrite=True)


def _refuse_plots(plots: tuple[tuple[str, Path], ...], overwrite: bool) -> None:
    for _, path in plots:
        if path.suffix.lower() not in DRAWN:
            message = f"'{path}' ends in '{path.suffix}'; a picture ends in {', '.join(DRAWN)}."
            raise click.BadParameter(message, param_hint="--plot")
        refuse_to_overwrite(path, overwrite)


@click.command(short_help="Throw the plane a thousand times before it is cut.")
@click.argument("file", type=FILE)
@click.option("--throws", type=click.IntRange(20, 100_000), default=1000, help="How many.  "
              "[default: 1000, which tells a share to about 3 points]")  # fmt: skip
@click.option("--seed", type=click.IntRange(0), default=1, help="Same seed, same throws.")
@click.option("--speed", metavar="SPEED", help="Of the throw, standing, such as '7 m/s'.  "
              "[default: the design file's, or the usual one for the mass]")  # fmt: skip
@click.option("--angle", metavar="ANGLE", help="Way of the hand above level.  [default: 3 deg]")
@click.option("--run", is_flag=True, help="Thrown with a few running steps: 2 m/s more.")
@click.option("--behind", is_flag=True, help="Pushed from behind instead of held below the wing.")
@click.option("--throttle", type=click.FloatRange(0.0, 100.0), default=70.0,
              help="Stick set before the throw, in %.  [default: 70]")  # fmt: skip
@click.option("--wind", metavar="SPEED", help="At head height, with its gusts.  "
              "[default: still air, and the field's usual wind beside it]")  # fmt: skip
@click.option("--wind-from", metavar="ANGLE", help="Right of ahead.  [default: 0 deg, a headwind]")
@click.option("--pilot", type=click.Choice(LEVELS), help="[default: the design file's]")
@click.option("--builds", "care", type=click.Choice(tuple(CARE)), default="careful",
              help="How closely planes are built to the design.  [default: careful]")  # fmt: skip
@click.option("--quick", is_flag=True, help="Leave out what suits it best and what helps.")
@click.option("--json", "as_json", is_flag=True, help="Print data for programs, all in SI.")
@click.option("--plot", "plots", type=(click.Choice(PLOTS), FILE), multiple=True,
              metavar="KIND FILE", help="Picture to write: paths, height or map (of throw speed "
              "and throttle) to a .svg, .png or .pdf; may be repeated.")  # fmt: skip
@click.option("--overwrite", is_flag=True, help="Replace a picture that is there already.")
def throw(file: Path, throws: int, seed: int, as_json: bool, quick: bool, care: str,  # noqa: PLR0913 - a command has as many arguments as options
          plots: tuple[tuple[str, Path], ...], overwrite: bool, throttle: float,
          **options: Any) -> int:  # noqa: ANN401  # fmt: skip
    """Throw the plane by hand a thousand times: how many fly away, how the others end and why.

    Every throw has its own hand, build, gusts and pilot. Then it says which throttle, angle and
    speed suit the plane, and which change helps most: each is flown again with the same luck.
    """
    from foamwright.cli.throw_words import best_words, change_words, throw_words
    from foamwright.flight.simulation.story import story_of
    from foamwright.flight.simulation.study import best_throw, what_helps
    from foamwright.flight.simulation.throws import throw as throw_all

    _refuse_plots(plots, overwrite)
    plane = open_plane(file)
    launch = launch_for(plane, {"throttle": throttle / 100.0, **_measured(options)})
    craft = plane.flawed(builds_for(care, throws, seed))
    thrown = throw_all(craft, launch, throws, seed)
    story = story_of(craft, thrown)
    best = changes = None
    if not quick:
        tried = builds_for(care, TRIED, seed)
        best = best_throw(plane.flawed, launch, tried, seed=seed)
        changes = what_helps(plane.flawed, launch, tried, seed=seed)
    if as_json:
        import json

        answer = _answer(plane, launch, story, best=best, changes=changes)
        click.echo(json.dumps(answer, indent=2, allow_nan=False))
    else:
        click.echo(throw_words(plane, launch, story, care=care))
        click.echo(
            _beside(plane, launch, care=care, count=throws, seed=seed, asked=options["wind"])
        )
        if best is not None and changes is not None:
            click.echo("\n" + best_words(plane, launch, best))
            click.echo("\n" + change_words(launch, changes, units=plane.design.units))
    for kind, path in plots:
        done = _plot(plane, launch, thrown, kind=kind, path=path, seed=seed, care=care)
        click.echo(f"wrote {done}", err=as_json)
    if not as_json:
        from foamwright.cli.table import paragraph

        click.echo("\n" + paragraph(CAUTION, first="Cautions: ", indent="  "))
    return 0


def _measured(options: dict[str, Any]) -> dict[str, Any]:
    from foamwright.cli.new import measured

    kinds = {"speed": "speed", "angle": "angle", "wind": "speed", "wind_from": "angle"}
    return {
        name: measured(value, f"--{name.replace('_', '-')}", kinds[name])
        if name in kinds
        else value
        for name, value in options.items()
    }


def _beside(
    plane: Plane, launch: Launch, *, care: str, count: int, seed: int, asked: str | None
) -> str:
    """The share in the field's usual wind, where no wind was asked for."""
    from dataclasses import replace

    from foamwright.cli.table import paragraph
    from foamwright.cli.throw_words import share_words
    from foamwright.core.errors import ModelError
    from foamwright.core.units import format_value
    from foamwright.flight.simulation.story import story_of
    from foamwright.flight.simulation.throws import throw as throw_all

    wind = plane.design.field.wind
    if asked is not None or wind == 0.0:
        return ""
    said = format_value(wind, "speed", plane.design.units)
    blown = replace(launch, wind=wind)
    craft = plane.flawed(builds_for(care, count, seed))
    try:
        story = story_of(craft, throw_all(craft, blown, count, seed))
    except ModelError as error:
        return paragraph(f"In the field's usual wind of {said}: {error}")
    return paragraph(
        f"Into the field's usual wind of {said} with its gusts "
        f"{share_words(story.share)} fly away, {share_words(story.clean)} without a near thing."
    )
