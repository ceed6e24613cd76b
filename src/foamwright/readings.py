"""Bench readings kept beside the design file, and a power train that has learnt from them.

They stand in `NAME.bench.toml` beside `NAME.toml`: a person may read it, mend it, or throw it away.
"""

import tomllib
from pathlib import Path
from typing import Any

from foamwright.core.errors import DesignError
from foamwright.core.files import write_atomically
from foamwright.core.journal import append_journal, read_journal
from foamwright.core.unit_table import GRAVITY, INCH
from foamwright.core.units import UnitError, parse
from foamwright.design.model import Design
from foamwright.power.reading import Reading
from foamwright.power.stick import duty_of

RPM = 3.141592653589793 / 30.0
DIMENSIONS = {"volts": "voltage", "amps": "current", "thrust": "force", "rest": "voltage"}
NAMES = {"volts": "voltage", "amps": "current", "thrust": "thrust", "rest": "rest_voltage"}
WHAT = "file of bench readings"
KEYS = ("when", "parts", "volts", "amps", "rpm", "thrust", "throttle", "rest", "propeller")
HEAD = (
    "# Bench readings, added by `foamwright bench`: the plane held still, air not moving.\n"
    "# A reading that was wrong may be taken out by hand.\n"
)


def bench_file(design_file: Path) -> Path:
    """Where the readings of a design stand.

    Args:
        design_file: Its design file. [-]

    Returns:
        The path.

    Source:
        Definition.

    Example:
        >>> bench_file(Path("cob.toml")).name
        'cob.bench.toml'
    """
    return design_file.with_name(f"{design_file.stem}.bench.toml")


def reading_of(words: dict[str, Any], *, field: str = "reading") -> Reading:
    """A reading from the words that a person typed.

    Args:
        words: Any of volts, amps, rpm, thrust, throttle, rest, propeller; thrust may be said as
            grams on the scale, throttle is the share of the stick. [-]
        field: How errors name it. [-]

    Returns:
        The reading, SI; the stick turned into the duty ratio that a usual controller gives.

    Raises:
        DesignError: A key that is not known or a value that cannot be read.

    Source:
        Definition.

    Example:
        >>> reading_of({"volts": "11.1 V", "amps": "12 A", "rpm": 8000}).voltage
        11.1
    """
    values: dict[str, Any] = {}
    for key, said in words.items():
        where = f"{field}.{key}"
        if key not in KEYS:
            raise DesignError(where, f"{said}", f"the keys of a reading are {', '.join(KEYS)}")
        if key == "propeller":
            values["propeller"] = bool(said)
        elif key == "throttle":
            values["throttle"] = duty_of(_stick(where, said))
        elif key == "rpm":
            values["speed"] = _number(where, said) * RPM
        elif key not in ("when", "parts"):
            values[NAMES[key]] = (
                _pull(where, said) if key == "thrust" else _read(where, said, DIMENSIONS[key])
            )
    return Reading(**values)


def _stick(where: str, said: object) -> float:
    stick = _read(where, said, "fraction")
    if not 0.0 < stick <= 1.0:
        words = "it must be above 0, up to 100 % of the stick"
        raise DesignError(where, f"{100.0 * stick:g} %", words)
    return stick


def _pull(where: str, said: object) -> float:
    """Thrust as a force, or as the mass that a scale shows."""
    try:
        return parse(said, "mass") * GRAVITY
    except UnitError:
        return _read(where, said, "force")


def _read(where: str, said: object, dimension: str) -> float:
    try:
        return parse(said, dimension)
    except UnitError as error:
        raise DesignError(where, error.got, error.allowed, error.fix) from None


def _number(where: str, said: object) -> float:
    try:
        return float(str(said).removesuffix("rpm").strip())
    except ValueError:
        raise DesignError(where, f'"{said}"', "it must be a number, such as 8200") from None


def parts_of(design: Design) -> tuple[str, str, str]:
    """What motor, pack and propeller are called, so that a reading is not used for others.

    Args:
        design: The design. [-]

    Returns:
        Motor, pack and propeller in words.

    Source:
        Definition.

    Example:
        >>> parts_of(design)
        ('outrunner 22 mm long 950 Kv', '3 cells 1500 mAh', 'electric 9x6x2')
    """
    motor, pack, propeller = design.motor, design.pack, design.propeller
    kv = "" if motor.kv is None else f" {motor.kv / RPM:.0f} Kv"
    return (
        f"{motor.stock}{kv}",
        f"{pack.cells} cells {pack.capacity / 3.6:.0f} mAh",
        f"{propeller.kind} {propeller.diameter / INCH:.3g}x{propeller.pitch / INCH:.3g}"
        f"x{propeller.blades}",
    )


def _meant_for(row: dict[str, Any], parts: tuple[str, str, str] | None) -> bool:
    """Whether a reading was taken with these parts; one that does not say is taken to be."""
    said = row.get("parts")
    if parts is None or said is None:
        return True
    taken = str(said).split("; ")
    wanted = list(parts)
    return taken == wanted or (row.get("propeller") is False and taken[:2] == wanted[:2])


def load_readings(
    design_file: Path, *, parts: tuple[str, str, str] | None = None
) -> tuple[Reading, ...]:
    """Every reading kept beside a design.

    Args:
        design_file: Its design file. [-]
        parts: Only those taken with this motor, pack and propeller; None takes all. [-]

    Returns:
        Readings in the order taken; none when there is no such file.

    Raises:
        DesignErrors: The file cannot be read.
        DesignError: It is not TOML, or a reading cannot be read.

    Source:
        Definition.

    Example:
        >>> load_readings(Path("no-such-plane.toml"))
        ()
    """
    file = bench_file(design_file)
    if not file.exists():
        return ()
    try:
        data = tomllib.loads(read_journal(file, what=WHAT).text)
    except tomllib.TOMLDecodeError as error:
        raise DesignError(
            "", f"it is not TOML ({error})", "mend or remove it", "", str(file)
        ) from None
    rows = data.get("reading", [])
    if not isinstance(rows, list) or set(data) - {"reading"}:
        raise DesignError("", "something besides [[reading]] tables", "only these belong here", "",
                          str(file))  # fmt: skip
    readings = [reading_of(row, field=f"reading {i + 1}") for i, row in enumerate(rows)]
    return tuple(
        reading for reading, row in zip(readings, rows, strict=True) if _meant_for(row, parts)
    )


def add_reading(design_file: Path, words: dict[str, Any]) -> Path:
    """Append a reading to those kept beside a design; nothing before it is touched.

    Args:
        design_file: Its design file. [-]
        words: As typed, see reading_of; "when" is its day. [-]

    Returns:
        The file written.

    Raises:
        DesignError: The words cannot be read.
        OutputError: The file cannot be written.

    Source:
        Definition.

    Example:
        >>> add_reading(Path("cob.toml"), {"amps": "12 A"}).name
        'cob.bench.toml'
    """
    reading_of(words)
    file = bench_file(design_file)
    lines = [f"{key} = {_toml(words[key])}" for key in KEYS if key in words]
    append_journal(file, "\n".join(["[[reading]]", *lines]), head=HEAD, what=WHAT)
    return file


def take_readings_along(design_file: Path, next_file: Path) -> Path | None:
    """Lay the bench readings of a design beside its next version, unless some are there.

    Those taken with a motor, pack or propeller that the new one has not are left aside by it.

    Args:
        design_file: They were taken for it. [-]
        next_file: The file of the next version. [-]

    Returns:
        The file written; None when there is nothing to take along.

    Raises:
        OutputError: It cannot be written.

    Source:
        Definition.

    Example:
        >>> take_readings_along(Path("no-such-plane.toml"), Path("no-such-plane-2.toml"))
    """
    file = bench_file(next_file)
    if not bench_file(design_file).exists() or file.exists():
        return None
    write_atomically(file, read_journal(bench_file(design_file), what=WHAT).text, overwrite=False)
    return file


def _toml(value: object) -> str:
    if isinstance(value, bool):
        return "true" if value else "false"
    return (
        f"{value}" if isinstance(value, int | float) else '"' + str(value).replace('"', "'") + '"'
    )
