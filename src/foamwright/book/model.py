"""What the book is made of."""

from dataclasses import dataclass

from foamwright.core.bands import Band

type Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Step:
    """One job at the bench.

    Attributes:
        id: Short name.
        title: What is done, in trade words.
        needs: Ids of the steps that must be done and set before.
        hands: Time at work. [s]
        wait: Time until it may be handled: glue setting. [s]
        parts: Ids of the parts joined, fitted or cut here.
        onto: Ids of parts that are there already and are worked on.
        items: Ids of bought things fitted here.
        glue: Stock name; "" for none.
        how: Sentences.
        checks: What to make sure of before going on.
        boxes: What to measure and write down.
        cautions: Where it can hurt.
        mass: Of the piece when done; None when it is not weighed. [kg]
        flat: Whether the parts are drawn flat, as cut.
        shown: Ids of finished parts drawn with the new ones.
    """

    id: str
    title: str
    needs: tuple[str, ...] = ()
    hands: float = 0.0
    wait: float = 0.0
    parts: tuple[str, ...] = ()
    onto: tuple[str, ...] = ()
    items: tuple[str, ...] = ()
    glue: str = ""
    how: tuple[str, ...] = ()
    checks: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    mass: Band | None = None
    flat: bool = False
    shown: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Chain:
    """The steps that together take longest because each needs the one before.

    Attributes:
        ids: Of the steps, in order.
        duration: Work and waiting, the last wait counted. [s]
    """

    ids: tuple[str, ...]
    duration: float


@dataclass(frozen=True, slots=True)
class Session:
    """A stretch of free time.

    Attributes:
        name: Such as "Sat".
        duration: [s]
    """

    name: str
    duration: float


@dataclass(frozen=True, slots=True)
class Booking:
    """A step, or a piece of one, in a session.

    Attributes:
        step: Id.
        session: Index.
        start: After the session's start. [s]
        end: [s]
        split: Whether it goes on in a later session.
    """

    step: str
    session: int
    start: float
    end: float
    split: bool = False


@dataclass(frozen=True, slots=True)
class TimePlan:
    """Steps laid into free hours.

    Attributes:
        sessions: As given; more of the same when they do not suffice.
        bookings: In time.
        asked: How many of the sessions were given. [-]
    """

    sessions: tuple[Session, ...]
    bookings: tuple[Booking, ...]
    asked: int


@dataclass(frozen=True, slots=True)
class Patch:
    """A filled outline of a picture; later ones cover earlier ones.

    Attributes:
        rings: Outer ring, then holes. [m]
        grey: Of the line, 0 black to 1 white. [-]
        fill: Of the area; None leaves it open. [-]
        closed: Whether the ring closes.
        dashes: Pattern of the line in points; empty draws it full.
    """

    rings: tuple[tuple[Point, ...], ...]
    grey: float = 0.0
    fill: float | None = 1.0
    closed: bool = True
    dashes: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A line drawing in a flat frame, y up.

    Attributes:
        patches: From the back to the front.
        labels: Words and their place.
        box: Left, bottom, right, top. [m]
    """

    patches: tuple[Patch, ...]
    labels: tuple[tuple[str, Point], ...]
    box: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading; level 1 starts a page."""

    words: str
    level: int = 2


@dataclass(frozen=True, slots=True)
class Words:
    """A paragraph.

    Attributes:
        words: Text.
        kind: "plain", "caution", "check", "small" or "box".
    """

    words: str
    kind: str = "plain"


@dataclass(frozen=True, slots=True)
class Grid:
    """A table.

    Attributes:
        head: Titles of the columns.
        rows: Cells.
        widths: Shares of the page's width.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture with its height on the page and words below.

    Attributes:
        picture: A line drawing, or the bytes of a PNG or SVG.
        height: [m]
        caption: Words.
    """

    picture: Picture | bytes
    height: float
    caption: str = ""


type Block = Heading | Words | Grid | Figure
