"""What decides a folded section besides chord and board."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FoldedRecipe:
    """What decides a folded section besides chord and board.

    Attributes:
        creases: Fractions of chord of the creases on the top skin.
        spread: Whether those are the tool's own spread, so that one that does not fit is left out.
        bevel: Width of the trailing bevel; None takes BEVEL_WIDTH thicknesses. [m]
        spar_height: 0 without spar. [m]
        spar_width: [m]
        spar_position: Middle of the spar, fraction of chord.
        target: Section to compare with.
        kinds: "score" or "crease" for each crease, where a tapered panel's other end has decided;
            None lets the turn decide.
        on_spar: For each crease the edge of the spar it is laid on, 0 front, 1 rear, -1 neither,
            where a tapered panel's middle has decided; None lets nearness decide.
        notes: Words on what was left out before.
    """

    creases: tuple[float, ...]
    spread: bool
    bevel: float | None
    spar_height: float
    spar_width: float
    spar_position: float
    target: str
    kinds: tuple[str, ...] | None = None
    on_spar: tuple[int, ...] | None = None
    notes: tuple[str, ...] = ()
