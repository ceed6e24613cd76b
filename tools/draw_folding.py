"""Draw docs/pictures/folded-section.svg. Run: python tools/draw_folding.py."""

import sys
from pathlib import Path

import matplotlib as mpl
import numpy as np

from foamwright.shape.folded import FoldedRecipe, folded_section
from foamwright.shape.reference import clark_y

mpl.use("svg")
mpl.rcParams["svg.fonttype"] = "none"
mpl.rcParams["svg.hashsalt"] = "foamwright"  # the same file every run
from matplotlib import pyplot as plt  # noqa: E402  the backend must be chosen first

PICTURES = Path(__file__).parents[1] / "docs" / "pictures"
COLOURS = {"fold": "#c0392b", "score": "#d68910", "crease": "#2471a3", "bevel": "#1e8449"}


def draw_section(axes) -> None:  # noqa: ANN001  matplotlib's type is of no use here
    """One section over the Clark-Y, with the spar and the skin's middle line."""
    section = folded_section(
        FoldedRecipe((0.10, 0.20), True, None, 0.010, 0.0254, 0.27, "clark-y"), 0.190, 0.005
    )
    outline = 190 * np.array([*section.upper, *section.lower[::-1]])
    path = 1000 * np.array(section.skin_path)
    upper, lower, _ = clark_y()
    target = 190 * np.vstack([upper, lower[::-1]])
    axes.fill(outline[:, 0], outline[:, 1], color="#eee7d5", ec="#333333", lw=0.9)
    axes.plot(target[:, 0], target[:, 1], "--", color="#7d3c98", lw=0.9, label="Clark-Y")
    axes.plot(path[:, 0], path[:, 1], color="#888888", lw=0.7, label="middle of the skin")
    x0, z0, x1, z1 = (1000 * v for v in section.spar_box)
    axes.fill([x0, x1, x1, x0], [z0, z0, z1, z1], color="#d8c48f", ec="#333333", lw=0.7)
    axes.set_aspect("equal")
    axes.set_title("190 mm chord, 5 mm board, two 1 in strips (mm)", fontsize=8)
    axes.legend(fontsize=7, frameon=False, loc="upper right")
    axes.tick_params(labelsize=7)
    blank = 1000 * section.blank_length
    strip = axes.figure.axes[1]
    strip.fill([0, blank, blank, 0], [0, 0, 20, 20], color="#eee7d5", ec="#333333", lw=0.9)
    for line in section.lines:
        at, half = 1000 * line.at, 500 * line.width
        strip.plot([at, at], [0, 20], color=COLOURS[line.kind], lw=1.0)
        if half:
            strip.axvspan(at - half, at + half, color=COLOURS["fold"], alpha=0.25, lw=0)
        strip.text(at, 22, f"{line.kind}\n{at:.1f}", fontsize=6, ha="center", va="bottom")
    strip.set_aspect("equal")
    strip.set_ylim(-2, 48)
    strip.set_yticks([])
    strip.tick_params(labelsize=7)
    strip.set_xlabel("along the blank from the bottom's trailing edge (mm)", fontsize=7)


def main() -> int:
    """Write the picture."""
    figure, axes = plt.subplots(2, 1, figsize=(6.4, 3.4))
    draw_section(axes[0])
    figure.tight_layout()
    PICTURES.mkdir(parents=True, exist_ok=True)
    figure.savefig(PICTURES / "folded-section.svg", metadata={"Date": None})
    return 0


if __name__ == "__main__":
    sys.exit(main())
