"""Which stock entries a design's wing is reinforced with, and the bands of all that it uses."""

from dataclasses import fields

from foamwright.core.bands import Band
from foamwright.design.model import Design, Reinforcement
from foamwright.parts.material import entry, rod_of_kind, tape_of_kind
from foamwright.stock.load import board_of
from foamwright.stock.model import RodStock, Stock, TapeStock

TAPE_KINDS = ("mesh tape", "packing tape")


def figures_of(design: Design, stock: Stock) -> dict[str, Band]:
    """Every doubted figure that the strength of this plane rests on.

    Args:
        design: The design. [-]
        stock: The stock tables. [-]

    Returns:
        Name such as "board.core_modulus" or "rod.craft stick.modulus" -> band. [any]

    Raises:
        DesignError: Stock has no such entry.

    Source:
        Definition.

    Example:
        >>> sorted(figures_of(design, stock))[0]
        'band.rubber band 64.modulus'
    """
    bands: dict[str, Band] = {}
    board = board_of(design.board, stock)
    for field in fields(board):
        if field.name.startswith(("core_", "paper_")) or field.name == "thickness":
            bands[f"board.{field.name}"] = getattr(board, field.name)
    del bands["board.core_density"], bands["board.paper_areal_mass"]
    bands |= _reinforcement_figures(design, stock)
    names = [design.stab.stiffener, design.fin.stiffener if design.fin else None]
    names += [servo.rod for servo in design.servo] + [design.wing.joint.brace]
    for name in names:
        bands |= _rod_or_tape(name, stock)
    joint, wall = design.wing.joint, design.motor.firewall
    if joint.tape is not None:
        tape = entry(stock.tapes, joint.tape, "wing.joint.tape")
        bands |= _two(f"tape.{tape.name}", stiffness=tape.stiffness, strength=tape.strength)
    bands |= _ply(wall.stock, "motor.firewall.stock", stock)
    for name, key in (
        (joint.glue, "wing.joint.glue"),
        (wall.glue, "motor.firewall.glue"),
        (design.glue.stock, "glue.stock"),
    ):
        glue = entry(stock.glues, name, key)
        for field in ("shear_strength", "board_shear_strength", "tension_strength"):
            bands[f"glue.{name}.{field}"] = getattr(glue, field)
        bands[f"glue.{name}.hot_temperature"] = glue.hot_temperature
    hold = design.wing.attachment
    if hold.kind == "bands":
        band = entry(stock.bands, hold.band, "wing.attachment.band")
        bands[f"band.{hold.band}.modulus"] = band.modulus
        dowel = entry(stock.rods, hold.dowel, "wing.attachment.dowel")
        bands |= _two(f"rod.{dowel.name}", modulus=dowel.modulus, strength=dowel.strength)
    return bands


def _reinforcement_figures(design: Design, stock: Stock) -> dict[str, Band]:
    bands: dict[str, Band] = {}
    for item in design.wing.reinforcement:
        if item.kind in TAPE_KINDS:
            tape = tape_named(item, stock)
            bands |= _two(f"tape.{tape.name}", stiffness=tape.stiffness, strength=tape.strength)
        elif item.kind != "foam strip":
            rod = rod_named(item, stock)
            bands |= _two(f"rod.{rod.name}", modulus=rod.modulus, strength=rod.strength)
    return bands


def _two(prefix: str, **figures: Band) -> dict[str, Band]:
    return {f"{prefix}.{name}": band for name, band in figures.items()}


def _ply(name: str, key: str, stock: Stock) -> dict[str, Band]:
    ply = entry(stock.plies, name, key)
    return _two(f"ply.{name}", thickness=ply.thickness, modulus=ply.modulus, strength=ply.strength)


def _rod_or_tape(name: str | None, stock: Stock) -> dict[str, Band]:
    if name is None:
        return {}
    if name in stock.tapes:
        tape = stock.tapes[name]
        return _two(f"tape.{name}", stiffness=tape.stiffness, strength=tape.strength)
    if name in stock.plies:
        return _ply(name, "", stock)
    rod = entry(stock.rods, name, "stock")
    return _two(f"rod.{name}", modulus=rod.modulus, strength=rod.strength)


def rod_named(item: Reinforcement, stock: Stock) -> RodStock:
    """The stick or rod that a reinforcement is made of.

    Args:
        item: The reinforcement. [-]
        stock: The stock tables. [-]

    Returns:
        The stock entry.

    Source:
        Definition of the design file.

    Example:
        >>> rod_named(item, stock).name  # doctest: +SKIP
        'bamboo skewer 3 mm'
    """
    if item.stock is None:
        return rod_of_kind(stock, item.kind, "wing.reinforcement.kind")
    return entry(stock.rods, item.stock, "wing.reinforcement.stock")


def tape_named(item: Reinforcement, stock: Stock) -> TapeStock:
    """The tape that a reinforcement is made of.

    Args:
        item: The reinforcement. [-]
        stock: The stock tables. [-]

    Returns:
        The stock entry.

    Source:
        Definition of the design file.

    Example:
        >>> tape_named(item, stock).name  # doctest: +SKIP
        'fibre mesh tape'
    """
    if item.stock is None:
        return tape_of_kind(stock, item.kind, "wing.reinforcement.kind")
    return entry(stock.tapes, item.stock, "wing.reinforcement.stock")
