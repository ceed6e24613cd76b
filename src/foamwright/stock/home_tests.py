"""Readings of a builder's home tests, put in place of the bands of stock."""

from collections.abc import Callable
from dataclasses import replace
from typing import Protocol

from foamwright.core.air import GRAVITY
from foamwright.core.bands import Band
from foamwright.core.errors import DesignError, DesignErrors
from foamwright.stock.bench import BoardChoice
from foamwright.stock.model import BoardStock, GlueStock, Stock

MEASURED = "measured at home"
# What a board can be: far outside what any paper-faced foam has, so that only slips are refused.
PAPER_STRENGTH = (2e6, 60e6)  # Pa, crushing; assumed
PAPER_MODULUS = (0.3e9, 15e9)  # Pa; assumed
PAPER_MASS = (0.03, 0.4)  # kg/m² a paper; copy paper is 0.08, card 0.3
GLUE_SHARE = (0.005, 0.6)  # of the board glued; assumed


class Strip(Protocol):
    """The design's [board.test] table."""

    @property
    def crease_load(self) -> float | None:
        """Bag and water that creased the strip [kg]."""
        ...

    @property
    def sag_load(self) -> float | None:
        """Mass hung from the middle [kg]."""
        ...

    @property
    def sag(self) -> float | None:
        """How far the middle came down [m]."""
        ...

    @property
    def span(self) -> float:
        """Between the two edges [m]."""
        ...

    @property
    def width(self) -> float:
        """Of the strip [m]."""
        ...

    @property
    def peeled_mass(self) -> float | None:
        """Of the weighed sheet with both papers off [kg]."""
        ...


class BoardTested(BoardChoice, Protocol):
    """The design's [board] table, as far as the tests go."""

    @property
    def test(self) -> Strip:
        """Home tests."""
        ...


class GlueTested(Protocol):
    """The design's [glue] table, as far as the tests go."""

    @property
    def stock(self) -> str:
        """Name in stock."""
        ...

    @property
    def stick_before(self) -> float | None:
        """Glue sticks before the airframe was glued [kg]."""
        ...

    @property
    def stick_after(self) -> float | None:
        """What was left of them [kg]."""
        ...

    @property
    def glued_mass(self) -> float | None:
        """Board parts that they glued [kg]."""
        ...


def tested_stock(board: BoardTested, glue: GlueTested, stock: Stock) -> Stock:
    """The stock tables with what the builder has measured at home in place of its bands.

    Args:
        board: The design's [board] table. [-]
        glue: The design's [glue] table. [-]
        stock: The stock tables. [-]

    Returns:
        The same tables when nothing was measured.

    Raises:
        DesignErrors: Readings that cannot be, each by its name.

    Source:
        docs/use/stock.md, home tests.

    Example:
        >>> tested_stock(design.board, design.glue, stock) is stock
        True
    """
    faults: list[DesignError] = []
    sold, poured = stock.boards.get(board.stock), stock.glues.get(glue.stock)
    tested = sold if sold is None else _tested_board(board, sold, faults)
    used = poured if poured is None else _tested_glue(glue, poured, faults)
    if faults:
        raise DesignErrors(faults)
    if tested is not None and tested is not sold:
        stock = replace(stock, boards={**_read(stock.boards), board.stock: tested})
    if used is not None and used is not poured:
        stock = replace(stock, glues={**_read(stock.glues), glue.stock: used})
    return stock


def _read[Entry](table: dict[str, Entry]) -> dict[str, Entry]:
    # A shipped table reads an entry when it is asked for, which copying it whole would not do.
    return {name: table[name] for name in table}


def _tested_board(board: BoardTested, sold: BoardStock, faults: list[DesignError]) -> BoardStock:
    test, changed = board.test, sold
    thickness = sold.thickness.typical if board.thickness is None else board.thickness
    paper = sold.paper_thickness.typical
    if test.crease_load is not None:
        stress = crease_strength(
            test.crease_load, test.span, width=test.width, thickness=thickness, paper=paper
        )
        if _possible(stress, PAPER_STRENGTH, "board.test.crease_load", faults, _mpa):
            band = Band.exact(stress, MEASURED)
            # The strip tells strength times thickness: with it measured the thickness is settled.
            exact = Band.exact(paper, MEASURED)
            changed = replace(changed, paper_compressive_strength=band, paper_thickness=exact)
    if (test.sag is None) != (test.sag_load is None):
        key = "board.test.sag" if test.sag is None else "board.test.sag_load"
        faults.append(DesignError(key, "missing", "sag and sag_load belong together"))
    elif test.sag is not None and test.sag_load is not None:
        modulus = sag_modulus(
            test.sag_load, test.sag, span=test.span, width=test.width, thickness=thickness,
            paper=paper,
        )  # fmt: skip
        if _possible(modulus, PAPER_MODULUS, "board.test.sag", faults, _mpa):
            changed = replace(changed, paper_modulus=Band.exact(modulus, MEASURED))
    if test.peeled_mass is not None:
        changed = _peeled(board, test.peeled_mass, changed, faults)
    return changed


def _peeled(
    board: BoardTested, peeled: float, sold: BoardStock, faults: list[DesignError]
) -> BoardStock:
    key, got = "board.test.peeled_mass", f"{1000 * peeled:.0f} g"
    if board.mass is None:
        words = "the same sheet must be weighed whole too"
        faults.append(DesignError(key, got, words, "Give board.mass."))
        return sold
    if peeled >= board.mass:
        words = f"a peeled sheet is lighter than the whole one of {1000 * board.mass:.0f} g"
        faults.append(DesignError(key, got, words, "Weigh it again, dry."))
        return sold
    paper = 0.5 * (board.mass - peeled) / (board.length * board.width)
    if not _possible(paper, PAPER_MASS, key, faults, lambda v: f"{1000 * v:.0f} g/m2 a paper"):
        return sold
    return replace(sold, paper_areal_mass=Band.exact(paper, MEASURED))


def _tested_glue(glue: GlueTested, poured: GlueStock, faults: list[DesignError]) -> GlueStock:
    readings = {
        "stick_before": glue.stick_before,
        "stick_after": glue.stick_after,
        "glued_mass": glue.glued_mass,
    }
    given = {name: value for name, value in readings.items() if value is not None}
    if not given:
        return poured
    for name in readings.keys() - given.keys():
        words = "stick_before, stick_after and glued_mass belong together"
        faults.append(DesignError(f"glue.{name}", "missing", words))
    if len(given) < len(readings):
        return poured
    used = given["stick_before"] - given["stick_after"]
    if used <= 0.0:
        faults.append(
            DesignError(
                "glue.stick_after",
                f"{1000 * given['stick_after']:.0f} g",
                f"the sticks weighed {1000 * given['stick_before']:.0f} g before, and glue is used "
                "up by gluing",
                "Swap the two, or weigh again.",
            )
        )
        return poured
    share = used / given["glued_mass"]
    if not _possible(
        share, GLUE_SHARE, "glue.glued_mass", faults, lambda v: f"{100 * v:.1f} % of the board"
    ):
        return poured
    return replace(poured, share=Band.exact(share, MEASURED))


def _mpa(value: float) -> str:
    return f"{value / 1e6:.1f} MPa"


def _possible(
    value: float,
    limits: tuple[float, float],
    key: str,
    faults: list[DesignError],
    say: Callable[[float], str],
) -> bool:
    low, high = limits
    if low <= value <= high:
        return True
    faults.append(
        DesignError(
            key,
            f"a reading that means {say(value)}",
            f"board and glue give {say(low)} to {say(high)}",
            "Look at the units, and at the width and span of the strip.",
        )
    )
    return False


def crease_strength(
    load: float, span: float, *, width: float, thickness: float, paper: float
) -> float:
    """Crushing strength of the paper of a strip that creased under a bag in its middle.

    sigma = P L / (2 t (d + c) b), three-point bending of a sandwich.

    Args:
        load: Bag with its water. [kg]
        span: Between the two edges L. [m]
        width: Of the strip b. [m]
        thickness: Of the board d; the foam is c = d - 2 t. [m]
        paper: Thickness of a paper t. [m]

    Returns:
        Strength. [Pa]

    Source:
        ASTM C393; reproduced in tests/validation/test_home_tests.py.

    Example:
        >>> round(crease_strength(0.4, 0.3, width=0.05, thickness=4.76e-3, paper=0.13e-3) / 1e6, 1)
        9.8
    """
    core = thickness - 2.0 * paper
    return load * GRAVITY * span / (2.0 * paper * (thickness + core) * width)


def sag_modulus(
    load: float, sag: float, *, span: float, width: float, thickness: float, paper: float
) -> float:
    """Modulus of the paper of a strip that sags under a mass in its middle.

    E = P L³ / (24 w t d² b), the give of the foam left out.

    Args:
        load: Hung from the middle. [kg]
        sag: Of the middle w. [m]
        span: Between the two edges L. [m]
        width: Of the strip b. [m]
        thickness: Between the papers' middles, near enough the board's d. [m]
        paper: Thickness of a paper t. [m]

    Returns:
        Modulus, a little low as the foam shears too. [Pa]

    Source:
        [ALLEN] eq. 2.1 with y = P L³ / (48 D).

    Example:
        >>> round(sag_modulus(0.1, 2.3e-3, span=0.3, width=0.05, thickness=4.76e-3,
        ...                   paper=0.13e-3) / 1e9, 1)
        3.4
    """
    force, apart = load * GRAVITY, thickness - paper
    return force * span**3 / (24.0 * sag * paper * apart**2 * width)
