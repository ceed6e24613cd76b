"""How long words are in print."""

from functools import lru_cache

REGULAR, BOLD = "Helvetica", "Helvetica-Bold"  # every PDF reader has them built in
WIDE_REGULAR, WIDE_BOLD = "DejaVuSans", "DejaVuSans-Bold"  # for letters that those two lack
CAP_HEIGHT = 0.72  # height of a capital over type size, Helvetica


@lru_cache(maxsize=4096)
def font_of(words: str, *, bold: bool = False) -> str:
    """Typeface that has every letter of some words.

    Args:
        words: The words. [-]
        bold: Whether they are set bold. [-]

    Returns:
        Name of a typeface known to the PDF library. [-]

    Source:
        Definition.

    Example:
        >>> font_of("Østermyr")
        'Helvetica'
    """
    try:
        words.encode("cp1252")
    except UnicodeEncodeError:
        return _wide_font(bold)
    return BOLD if bold else REGULAR


@lru_cache(maxsize=2)
def _wide_font(bold: bool) -> str:
    """Register a typeface with most of the world's letters; it comes with the plot library."""
    from pathlib import Path

    import matplotlib as mpl
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    name = WIDE_BOLD if bold else WIDE_REGULAR
    folder = Path(mpl.get_data_path()) / "fonts" / "ttf"
    pdfmetrics.registerFont(TTFont(name, str(folder / f"{name}.ttf")))
    return name


@lru_cache(maxsize=8192)
def words_length(words: str, size: float, *, bold: bool = False) -> float:
    """Length of a line of words in print.

    Args:
        words: The words. [-]
        size: Type size (em). [m]
        bold: Whether they are set bold. [-]

    Returns:
        Length. [m]

    Source:
        Letter widths of the typeface.

    Example:
        >>> round(words_length("foam", 0.01), 5)
        0.02223
    """
    from reportlab.pdfbase.pdfmetrics import stringWidth

    return float(stringWidth(words, font_of(words, bold=bold), 1000)) / 1000 * size
