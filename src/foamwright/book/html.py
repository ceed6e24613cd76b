"""Blocks as one HTML file that needs nothing else."""

import base64
from collections.abc import Sequence
from html import escape

from foamwright.book.model import Block, Figure, Grid, Heading, Picture, Words

STYLE = """
body{font:16px/1.45 system-ui,sans-serif;max-width:52em;margin:1em auto;padding:0 1em}
body{color:#111;background:#fff}
h1{border-bottom:2px solid #111;margin-top:2em}
table{border-collapse:collapse;width:100%;margin:.6em 0}
td,th{border-bottom:1px solid #bbb;padding:.2em .4em;text-align:left}
td,th{vertical-align:top;font-size:.92em}
.caution{border:2px solid #111;padding:.3em .6em}.caution::before{content:"! ";font-weight:bold}
.check::before{content:"Check: ";font-weight:bold}.small{font-size:.88em;color:#333}
.box span{display:inline-block;min-width:12em;border-bottom:1px solid #111}
figure{margin:.6em 0}figure svg,figure img{width:100%;height:auto;max-height:28em}
@media print{h1{page-break-before:always}h1:first-of-type{page-break-before:avoid}}
"""
LABEL = 0.011  # of the picture's larger side, radius of the numbers


def write_html(blocks: Sequence[Block], *, title: str) -> str:
    """One page with everything in it.

    Args:
        blocks: In order. [-]
        title: Of the page. [-]

    Returns:
        The file. [-]

    Source:
        Definition.

    Example:
        >>> "<h1>Cob</h1>" in write_html([Heading("Cob", 1)], title="Cob")
        True
    """
    body = "\n".join(_block(block) for block in blocks)
    return (
        '<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f"<title>{escape(title)}</title><style>{STYLE}</style></head>\n<body>\n{body}\n</body></html>\n"
    )


def _block(block: Block) -> str:
    if isinstance(block, Heading):
        return f"<h{block.level}>{escape(block.words)}</h{block.level}>"
    if isinstance(block, Words):
        gap = " <span>&nbsp;</span>" if block.kind == "box" else ""
        return f'<p class="{block.kind}">{escape(block.words)}{gap}</p>'
    if isinstance(block, Grid):
        return _table(block)
    return _figure(block)


def _table(block: Grid) -> str:
    head = (
        "<tr>" + "".join(f"<th>{escape(cell)}</th>" for cell in block.head) + "</tr>"
        if any(block.head)
        else ""
    )
    rows = "\n".join(
        "<tr>" + "".join(f"<td>{escape(cell) or '&nbsp;'}</td>" for cell in row) + "</tr>"
        for row in block.rows
    )
    return f"<table>{head}\n{rows}</table>"


def _figure(block: Figure) -> str:
    caption = (
        f"<figcaption class='small'>{escape(block.caption)}</figcaption>" if block.caption else ""
    )
    if isinstance(block.picture, Picture):
        return f"<figure>{svg_of(block.picture)}{caption}</figure>"
    data = base64.b64encode(block.picture).decode("ascii")
    kind = "png" if block.picture.startswith(b"\x89PNG") else "svg+xml"
    return (
        f'<figure><img alt="three views" src="data:image/{kind};base64,{data}">{caption}</figure>'
    )


def svg_of(picture: Picture) -> str:
    """A line drawing as SVG.

    Args:
        picture: The drawing. [-]

    Returns:
        An svg element, millimetres as user units. [-]

    Source:
        SVG 1.1.

    Example:
        >>> svg_of(Picture((), (), (0.0, 0.0, 0.1, 0.1)))[:4]
        '<svg'
    """
    left, bottom, right, top = (1000 * value for value in picture.box)
    pad = 0.03 * max(right - left, top - bottom, 1.0)
    wide, tall = right - left + 2 * pad, top - bottom + 2 * pad
    line = max(wide, tall) * 0.0011
    radius = LABEL * max(wide, tall)
    out = [
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{left - pad:.2f} {-top - pad:.2f} '
        f'{wide:.2f} {tall:.2f}" fill-rule="evenodd" stroke-linejoin="round" '
        f'stroke-width="{line:.3f}">'
    ]
    for patch in picture.patches:
        path = " ".join(
            "M"
            + " L".join(f"{1000 * x:.1f} {-1000 * y:.1f}" for x, y in ring)
            + (" Z" if patch.closed else "")
            for ring in patch.rings
        )
        fill = "none" if patch.fill is None else _grey(patch.fill)
        dash = " ".join(f"{0.6 * value * line / 0.2:.2f}" for value in patch.dashes)
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        out.append(f'<path d="{path}" fill="{fill}" stroke="{_grey(patch.grey)}"{dashed}/>')
    for words, (x, y) in picture.labels:
        place = f'x="{1000 * x:.1f}" y="{-1000 * y + 0.38 * radius * 1.2:.1f}"'
        out.append(
            f'<circle cx="{1000 * x:.1f}" cy="{-1000 * y:.1f}" r="{radius:.1f}" fill="#fff" '
            f'stroke="#000"/><text {place} font-size="{1.2 * radius:.1f}" '
            f'text-anchor="middle" stroke="none">{escape(words)}</text>'
        )
    return "".join(out) + "</svg>"


def _grey(value: float) -> str:
    level = round(255 * value)
    return f"#{level:02x}{level:02x}{level:02x}"
