"""Open a design file: read it, find its stock, and hand the plane the rooms that stand above it."""

from pathlib import Path

from foamwright.checks.results import results_of
from foamwright.checks.run import run_checks
from foamwright.design.load import raise_unknown_stock, read_design
from foamwright.plane import Above, Plane
from foamwright.sheets.draft import layout_of
from foamwright.stock.load import load_stock, stock_names

STOCK_FILE = "stock.toml"  # the builder's own stock, beside the design


def _drawing(plane: Plane, path: Path | None) -> object:
    # It draws with a heavy library: only when asked.
    from foamwright.sheets.views import draw_three_view

    return draw_three_view(plane, path)


ABOVE = Above(checks=run_checks, layout=layout_of, drawing=_drawing, results=results_of)


def load(path: str | Path) -> Plane:
    """Open a design file as a plane.

    A `stock.toml` beside the design file adds to the stock and replaces entries of the same name.

    Args:
        path: The design file. [-]

    Returns:
        The plane; nothing is computed before it is asked for. [-]

    Raises:
        DesignErrors: Something in the design or stock file is wrong; all of it is listed.

    Source:
        Definition.

    Example:
        >>> import foamwright
        >>> foamwright.load("examples/brindle-cob.toml").design.name  # doctest: +SKIP
        'Brindle Cob'
    """
    file = Path(path)
    loaded = read_design(file)
    own = file.parent / STOCK_FILE
    stock = load_stock(own if own.exists() else None)
    raise_unknown_stock(loaded, stock_names(stock))
    return Plane(loaded.design, stock, ABOVE, path=file)
