"""A starting file whose propeller, controller and pack suit the motor that the builder has."""

from dataclasses import dataclass, replace
from pathlib import Path

from foamwright.design.load import parse_design
from foamwright.design.new import Answers, new_design_text
from foamwright.design.new_sizes import KINDS
from foamwright.flight.suited import SuitedSet, suited_set
from foamwright.opening import STOCK_FILE, load_text
from foamwright.plane import Plane
from foamwright.stock.load import load_stock, stock_names


@dataclass(frozen=True, slots=True)
class Started:
    """A starting file.

    Attributes:
        text: TOML that loads.
        notes: What the builder should know of it, in words.
    """

    text: str
    notes: tuple[str, ...] = ()


def start_design(answers: Answers, file: Path) -> Started:
    """The text of a starting file; where a motor or pack was said, what goes with it is chosen.

    The plane of the same answers with the usual power is drawn first; on it every propeller of
    stock is tried with the motor and pack that were said. The pack then sits where the centre of
    gravity stays that of the usual plane.

    Args:
        answers: What the builder said. [-]
        file: Where it is going to stand; a stock.toml beside it is taken in. [-]

    Returns:
        The file and notes.

    Raises:
        DesignErrors: An answer is outside what a starting file can be made for, or not in stock.

    Source:
        foamwright.flight.suited.

    Example:
        >>> start_design(Answers("Reed Wren"), Path("wren.toml")).notes
        ()
    """
    own = file.parent / STOCK_FILE
    stock = load_stock(own if own.exists() else None)
    text = new_design_text(answers)
    parse_design(text, names=stock_names(stock))
    usual = replace(answers, motor=None, cells=None, capacity=None)
    if usual == answers:
        return Started(text)
    plain = load_text(new_design_text(usual), file, stock=stock)
    plane = load_text(text, file, stock=stock)
    chosen = suited_set(
        plane.train,
        plane.aero,
        mass=plane.balance.all_up_mass,
        density=plane.air.density,
        kind=KINDS[answers.kind].propeller,
        controllers=stock.controllers,
        pack=(answers.cells, answers.capacity),
        units=answers.units,
    )
    return _balanced(_filled(answers, chosen), plain, chosen, file=file)


def _filled(answers: Answers, chosen: SuitedSet) -> Answers:
    made = chosen.propeller
    return replace(
        answers,
        propeller=(made.kind, made.diameter, made.pitch),
        controller=chosen.controller,
        cells=chosen.cells,
        capacity=chosen.capacity,
    )


def _balanced(answers: Answers, plain: Plane, chosen: SuitedSet, *, file: Path) -> Started:
    """The pack put where the centre of gravity is that of the usual plane."""
    notes = [f"Nothing in stock makes this motor suit the plane: {why}." for why in chosen.faults]
    balance = load_text(new_design_text(answers), file, stock=plain.stock).balance
    reach = balance.cg_back - balance.cg_front
    share = (plain.balance.cg[0] - balance.cg_front) / reach if reach > 0.0 else 0.0
    if not 0.0 <= share <= 1.0:
        side = "forward" if share < 0.0 else "aft"
        notes.append(
            f"The pack would have to sit further {side} than its tray reaches; "
            "`foamwright check` says what balances it."
        )
    place = balance.pack_front + min(max(share, 0.0), 1.0) * (
        balance.pack_back - balance.pack_front
    )
    text = new_design_text(replace(answers, pack_position=place))
    return Started(text, tuple(notes))
