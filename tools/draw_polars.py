"""Draw our section polars beside the tunnel figures that the tests carry.

python tools/draw_polars.py         write docs/pictures/polars-*.svg
"""

import sys
from pathlib import Path

import matplotlib as mpl
import numpy as np

ROOT = Path(__file__).resolve().parents[1]
sys.path[:0] = [str(ROOT / "tests"), str(ROOT / "tests" / "validation")]

import test_sections as measured  # noqa: E402 - the figures are typed in there

from foamwright.aero.sections import polar_at  # noqa: E402

PICTURES = ROOT / "docs" / "pictures"
COLOURS = {
    40: "#7b3294",
    61: "#b2182b",
    100: "#ef8a62",
    200: "#2166ac",
    300: "#67a9cf",
    400: "#1b7837",
}
SECTIONS = {
    "Clark-Y": ("polars-clark-y.svg", (61, 200, 400)),
    "GM15": ("polars-thin-cambered.svg", (40, 200)),
    "SD7003": ("polars-sd7003.svg", (61, 100, 200, 300)),
    "E387": ("polars-e387.svg", (100, 200, 300)),
}


def points_of(name: str) -> tuple[list[tuple[int, float, float]], list[tuple[int, float, float]]]:
    """Measured (thousand Re, angle, Cl) and (thousand Re, Cl, Cd) of a section."""
    if name == "SD7003":
        lift, drag = measured.RECALLED_LIFT, measured.RECALLED_DRAG
        return [(near(r), a, c) for r, a, c in lift], [(near(r), c, d) for r, c, d, _ in drag]
    if name == "E387":
        lift, drag = measured.UNSEEN_LIFT, measured.UNSEEN_DRAG
        return [(near(r), a, c) for r, a, c in lift], [(near(r), c, d) for r, c, d, _ in drag]
    lift = [(near(r), a, c) for n, r, a, c in measured.LIFT if n == name]
    return lift, [(near(r), c, d) for n, r, c, d, _ in measured.DRAG if n == name]


def near(reynolds: float) -> int:
    """The listed Reynolds number, in thousands, that a run belongs to."""
    return min(COLOURS, key=lambda k: abs(k - reynolds / 1e3))


def draw(name: str, file: str, reynolds: tuple[int, ...]) -> None:
    """Lift against angle on the left, lift against drag on the right."""
    from matplotlib.figure import Figure

    figure = Figure(figsize=(8.0, 3.6), layout="constrained")
    left, right = figure.subplots(1, 2)
    lift, drag = points_of(name)
    for thousand in reynolds:
        polar = polar_at(measured.table(name), 1e3 * thousand)
        inside = (polar.alpha > np.radians(-6.0)) & (polar.alpha < np.radians(17.0))
        end = int(np.argmax(polar.lift)) + 1
        start = int(np.argmin(polar.lift[:end]))
        colour = COLOURS[thousand]
        left.plot(np.degrees(polar.alpha[inside]), polar.lift[inside], color=colour, lw=1.2,
                  label=f"Re {thousand} 000")  # fmt: skip
        right.plot(polar.drag[start:end], polar.lift[start:end], color=colour, lw=1.2)
        left.plot(*_columns(lift, thousand), "o", color=colour, ms=4)
        spots = _columns(drag, thousand)
        right.plot(spots[1], spots[0], "o", color=colour, ms=4)
    left.set(xlabel="angle of attack of the chord line (deg)", ylabel="Cl")
    right.set(xlabel="Cd", ylabel="Cl", xlim=(0.0, 0.06), ylim=(0.0, 1.5))
    left.legend(frameon=False, fontsize=8)
    for axes in (left, right):
        axes.grid(alpha=0.3)
    dots = "recalled" if name == "E387" else "measured"
    figure.suptitle(f"{name}: lines ours, dots {dots}", fontsize=10)
    figure.savefig(PICTURES / file, metadata={"Date": None})
    text = (PICTURES / file).read_text(encoding="utf-8")
    tidy = "\n".join(line.rstrip() for line in text.splitlines()) + "\n"
    (PICTURES / file).write_text(tidy, encoding="utf-8")


def _columns(
    rows: list[tuple[int, float, float]], thousand: int
) -> tuple[list[float], list[float]]:
    kept = [row for row in rows if row[0] == thousand]
    return [row[1] for row in kept], [row[2] for row in kept]


def main() -> None:
    """Write the pictures."""
    mpl.use("svg")
    mpl.rcParams["svg.hashsalt"] = "foamwright"
    for name, (file, reynolds) in SECTIONS.items():
        draw(name, file, reynolds)
        print(f"wrote {PICTURES.name}/{file}")


if __name__ == "__main__":
    main()
