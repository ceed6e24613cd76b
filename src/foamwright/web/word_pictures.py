"""Small drawings beside the explanation of a word: nose to the left, up is up."""

from __future__ import annotations

# Classes: i ink, b blue measure, d dashed, f filled with paper, k kraft, t text.
SECTION = "M0 0C3-9 20-15 42-14C72-12 96-5 124 0Z"  # a folded section, 124 long, nose at 0
BALANCE = (
    '<g transform="translate({x} {y})"><circle class="f i" r="7"/>'
    '<path class="n" d="M0 0V-7A7 7 0 0 1 7 0ZM0 0V7A7 7 0 0 1 -7 0Z"/></g>'
)


def _drawing(*parts: str, height: int = 92) -> str:
    return f'<svg viewBox="0 0 240 {height}" aria-hidden="true">{"".join(parts)}</svg>'


def _line(way: str, kind: str = "i") -> str:
    return f'<path class="{kind}" d="{way}"/>'


def _words(x: float, y: float, text: str, anchor: str = "start") -> str:
    return f'<text x="{x}" y="{y}" text-anchor="{anchor}">{text}</text>'


def _section(x: float, y: float, turn: float = 0.0, kind: str = "i k") -> str:
    return (
        f'<path class="{kind}" transform="translate({x} {y}) rotate({turn} 40 0)" d="{SECTION}"/>'
    )


def _measure(x: float, end: float, y: float) -> str:
    """A dimension line between two places."""
    ticks = f"M{x} {y - 5}V{y + 5}M{end} {y - 5}V{y + 5}"
    return _line(f"M{x} {y}H{end}{ticks}", "b")


def _balance(x: float, y: float) -> str:
    return BALANCE.format(x=x, y=y)


def _neutral(x: float, y: float) -> str:
    return _line(f"M{x} {y - 9}l5 9l-5 9l-5 -9Z", "f i")


PICTURES = {
    "washout": _drawing(
        _section(20, 58),
        _section(20, 58, -9, "b d"),
        _words(152, 64, "middle"),
        '<text x="152" y="36" class="tb">tip, edge up</text>',
        _line("M8 84H232", "i d"),
    ),
    "static margin": _drawing(
        _section(40, 44),
        _balance(78, 38),
        _neutral(116, 38),
        _line("M78 48V72M116 48V72", "b"),
        _measure(78, 116, 68),
        _words(97, 87, "static margin", "middle"),
    ),
    "neutral point": _drawing(
        _section(40, 52),
        _balance(78, 46),
        _neutral(116, 46),
        _line("M116 36L132 20", "i"),
        _words(136, 18, "neutral point"),
    ),
    "balance point": _drawing(
        _section(58, 46),
        _balance(98, 40),
        _line("M92 92V62a6 6 0 0 1 12 0V92", "f i"),
        _measure(58, 98, 18),
        _words(112, 22, "behind the edge"),
    ),
    "decalage": _drawing(
        _line("M10 66H232", "i d"),
        _section(24, 48, 5),
        _line("M186 60h36v4h-36z", "i k"),
        _line("M12 37L236 56.5", "b"),
        _line("M150 62H236", "b"),
        _words(158, 82, "between wing and stab", "middle"),
    ),
    "incidence": _drawing(
        _line("M10 70H232", "i d"),
        _section(40, 52, 7),
        _line("M28 43L226 67.5", "b"),
        _words(150, 86, "fuselage line", "middle"),
    ),
    "dihedral": _drawing(
        _line("M120 66L18 40v5L120 71L222 45v-5Z", "i k"),
        _line("M112 60h16v24h-16z", "f i"),
        _line("M128 68H230", "i d"),
        _line("M216 68A96 96 0 0 0 213 44", "b"),
        _words(160, 84, "dihedral"),
    ),
    "chord": _drawing(
        _line("M20 24H220V60H20Z", "i k"),
        _line("M112 10h16v74h-16z", "f i"),
        _line("M60 24V60M55 24H65M55 60H65", "b"),
        _words(68, 46, "chord"),
    ),
    "span": _drawing(
        _line("M20 36H220V64H20Z", "i k"),
        _line("M112 26h16v60h-16z", "f i"),
        _measure(20, 220, 18),
    ),
    "stall": _drawing(
        _section(46, 66, 19),
        _line("M8 62C40 62 44 34 84 28C110 24 116 40 134 36", "b"),
        _line("M112 48c8-8 16 0 10 6s-14-2-6-6M146 56c9-9 20 0 12 8s-16-2-8-8", "b"),
        _words(168, 34, "air lets go"),
    ),
    "bending moment": _drawing(
        _line("M12 60H40", "i"),
        _line("M40 54C110 54 180 44 228 18l2 5C184 50 112 62 40 62Z", "i k"),
        _line("M90 88V68m-4 6l4-6l4 6M140 84V62m-4 6l4-6l4 6M190 72V48m-4 6l4-6l4 6", "b"),
        _line("M32 40v40", "i"),
    ),
    "load factor": _drawing(
        _line("M120 46L18 30v5L120 52L222 35v-5Z", "i k"),
        _line("M112 44h16v22h-16z", "f i"),
        _line("M120 90V68m-4 14l4 8l4-8", "i"),
        _line("M66 34V8m-4 7l4-7l4 7M174 34V8m-4 7l4-7l4 7", "b"),
        _words(130, 86, "weight, so many times"),
    ),
    "pitch": _drawing(
        _line("M20 16C40 16 40 76 60 76S80 16 100 16S120 76 140 76S160 16 180 16", "b"),
        _line("M100 10V86M180 10V86", "i d"),
        _measure(100, 180, 46),
        _line("M18 46H232", "i d"),
        _words(186, 40, "one turn"),
    ),
    "tray": _drawing(
        _line("M14 40L60 28H226V74H60L14 64Z", "i k"),
        _line("M76 46h44v18H76z", "f i"),
        _words(98, 59, "pack", "middle"),
        _line("M44 68H160M44 64v8M160 64v8", "b d"),
    ),
    "kerf": _drawing(
        _line("M14 32H112V70H14ZM122 32H226V70H122Z", "i k"),
        _line("M112 22H122M112 18v8M122 18v8", "b"),
        _words(117, 14, "kerf", "middle"),
    ),
    "wing loading": _drawing(
        _line("M20 52H220V72H20Z", "i k"),
        _line("M96 18h48v30H96z", "f i"),
        _words(120, 38, "mass", "middle"),
        _words(120, 67, "wing area", "middle"),
    ),
}
