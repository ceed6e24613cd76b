"""Print FOLDED_RATIO of src/foamwright/aero/refine.py: mean over the example planes' sections.

Run: python tools/folded_ratio.py
"""

import sys
from pathlib import Path

import numpy as np

import foamwright
from foamwright.aero.outline import fair_steps, panel_points
from foamwright.aero.refine import COUPLED_REYNOLDS, FOLDED_LIFT, drag_ratios, laid_on
from foamwright.aero.sections import ANGLES, REYNOLDS
from foamwright.aero.viscous import on_angles, section_curve
from foamwright.aero.vortex_panels import panel_flow

EXAMPLES = Path(__file__).parent.parent / "examples"


def main() -> None:
    """Compute each distinct folded section, print mean and scatter."""
    sections = {
        panel.section
        for file in sorted(EXAMPLES.glob("*.toml"))
        for panel in foamwright.load(file).airframe.wing.panels
        if panel.section.build == "folded"
    }
    numbers, found = np.array(REYNOLDS), []
    for section in sections:
        upper, _ = fair_steps(section.upper)
        points = panel_points(tuple(map(tuple, upper.tolist())), section.lower, smooth=True)
        lift, drag, _, _ = on_angles(section_curve(panel_flow(points), numbers), np.array(ANGLES))
        cases = drag_ratios(points, numbers, lift, drag)
        places = np.tile(FOLDED_LIFT, (len(COUPLED_REYNOLDS), 1))
        found.append(laid_on(cases, np.array(COUPLED_REYNOLDS), places))
    for name, table in (("mean", np.mean(found, axis=0)), ("scatter", np.std(found, axis=0))):
        sys.stdout.write(f"{name} of {len(found)} sections\n")
        for row in table.tolist():
            sys.stdout.write("    (" + ", ".join(f"{value:.2f}" for value in row) + "),\n")


if __name__ == "__main__":
    main()
