"""Open a design file: read it, find its stock, and hand the plane the rooms that stand above it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from foamwright.checks.results import results_of
from foamwright.checks.run import run_checks
from foamwright.core.errors import DesignError, DesignErrors
from foamwright.core.words import in_units
from foamwright.design.load import Loaded, located, parse_design, read_design
from foamwright.design.model import Design
from foamwright.plane import Above, Plane
from foamwright.sheets.draft import layout_of
from foamwright.stock.load import load_stock, stock_names
from foamwright.stock.model import Stock

if TYPE_CHECKING:
    from foamwright.power.model import PowerTrain

STOCK_FILE = "stock.toml"  # the builder's own stock, beside the design


def _drawing(plane: Plane, path: Path | None) -> object:
    # They draw with heavy libraries: only when asked.
    if path is not None and path.suffix.lower() in (".glb", ".stl"):
        from foamwright.sheets.solid import write_solid

        return write_solid(plane, path, overwrite=True)
    from foamwright.sheets.views import draw_three_view

    return draw_three_view(plane, path)


ABOVE = Above(checks=run_checks, layout=layout_of, drawing=_drawing, results=results_of)


def _learnt(design: Design, stock: Stock, file: Path) -> tuple[PowerTrain, PowerTrain] | None:
    """The power train before and after the bench readings kept beside the design."""
    if not file.with_name(f"{file.stem}.bench.toml").exists():
        return None
    # Few planes have been on a bench yet.
    from foamwright.core.air import air_at
    from foamwright.power.bench import learn_from_bench
    from foamwright.power.train import build_train
    from foamwright.readings import load_readings, parts_of

    readings = load_readings(file, parts=parts_of(design))
    if not readings:
        return None
    label = build_train(design, stock)
    air = air_at(design.field.altitude, design.field.temperature)
    return label, learn_from_bench(label, readings, density=air.density, advise=False).train


def load(path: str | Path) -> Plane:
    """Open a design file as a plane.

    A `stock.toml` beside the design file adds to the stock and replaces entries of the same name;
    a `NAME.bench.toml` holds bench readings that sharpen motor, propeller and pack.

    Args:
        path: The design file. [-]

    Returns:
        The plane, shape and parts made; nothing else is computed before it is asked for. [-]

    Raises:
        DesignErrors: Something in the design or stock file is wrong; all of it is listed.

    Source:
        Definition.

    Example:
        >>> import foamwright
        >>> foamwright.load("examples/brindle-cob.toml").design.name
        'Brindle Cob'
    """
    file = Path(path)
    own = file.parent / STOCK_FILE
    stock = load_stock(own if own.exists() else None)
    return _opened(read_design(file, stock_names(stock)), stock, file)


def load_text(text: str, path: str | Path, *, stock: Stock | None = None) -> Plane:
    """Open the text of a design as a plane, as if it stood in a file.

    Args:
        text: The TOML text of a design. [-]
        path: The file it stands for; stock and bench readings beside it are taken in. [-]
        stock: Tables read before; None reads them. [-]

    Returns:
        The plane. [-]

    Raises:
        DesignErrors: Something in the text is wrong; all of it is listed.

    Source:
        Definition.

    Example:
        >>> load_text(text, "cob.toml").design.name  # doctest: +SKIP
        'Brindle Cob'
    """
    file = Path(path)
    own = file.parent / STOCK_FILE
    tables = load_stock(own if own.exists() else None) if stock is None else stock
    return _opened(parse_design(text, str(file), stock_names(tables)), tables, file)


def _opened(loaded: Loaded, stock: Stock, file: Path) -> Plane:
    plane = Plane(
        loaded.design, stock, ABOVE, path=file, learnt=_learnt(loaded.design, stock, file)
    )
    _fold_once(plane, loaded)
    return plane


def _fold_once(plane: Plane, loaded: Loaded) -> None:
    """Make the shape and the parts, so that what cannot be folded is told with its line."""
    try:
        _ = plane.airframe, plane.parts
    except (DesignError, DesignErrors) as error:
        errors = error.errors if isinstance(error, DesignErrors) else (error,)
        errors = [_in_words(one, loaded.design.units) for one in errors]
        raise DesignErrors(located(errors, loaded.text, str(plane.path))) from None


def _in_words(error: DesignError, units: str) -> DesignError:
    said = {name: in_units(getattr(error, name), units) for name in ("got", "allowed", "fix")}
    return replace(error, **said)
