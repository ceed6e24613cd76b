"""Paper sizes that home and copy-shop printers take."""

from dataclasses import dataclass

from foamwright.core.errors import OutputError
from foamwright.core.unit_table import INCH


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet of paper, upright.

    Attributes:
        name: As it is sold.
        width: Short side. [m]
        height: Long side. [m]
    """

    name: str
    width: float
    height: float


PAPERS: dict[str, Paper] = {
    paper.name.lower(): paper
    for paper in (
        Paper("A4", 0.210, 0.297),  # ISO 216 table 1
        Paper("A3", 0.297, 0.420),  # ISO 216 table 1
        Paper("Letter", 8.5 * INCH, 11.0 * INCH),  # ANSI/ASME Y14.1 size A
        Paper("Tabloid", 11.0 * INCH, 17.0 * INCH),  # ANSI/ASME Y14.1 size B
    )
}


def paper_of(name: str) -> Paper:
    """Look a paper up by name, large or small letters.

    Args:
        name: "A4", "A3", "Letter" or "Tabloid". [-]

    Returns:
        The paper. [-]

    Raises:
        OutputError: No such paper.

    Source:
        ISO 216 for A sizes, ANSI/ASME Y14.1 for the inch sizes; reproduced in
        tests/validation/test_paper_sizes.py.

    Example:
        >>> paper_of("a4").height
        0.297
    """
    found = PAPERS.get(name.strip().lower())
    if found is None:
        names = ", ".join(paper.name for paper in PAPERS.values())
        raise OutputError(f"There is no paper '{name}'; it must be one of {names}.")
    return found


def usual_paper(units: str) -> str:
    """Name of the paper that lies in a printer where planes are measured so.

    Args:
        units: "metric" or "inch". [-]

    Returns:
        A key of PAPERS. [-]

    Source:
        Common practice, no source.

    Example:
        >>> usual_paper("inch"), usual_paper("metric")
        ('letter', 'a4')
    """
    return "letter" if units == "inch" else "a4"
