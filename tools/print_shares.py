"""Print the table of the examples' shares for docs/use/uncertainty.md.

python tools/print_shares.py
"""

from pathlib import Path

import foamwright
from foamwright.checks.builds import builds_of

EXAMPLES = Path(__file__).resolve().parents[1] / "examples"


def row(file: Path) -> str:
    """One plane's row of the table."""
    plane = foamwright.load(file)
    builds = builds_of(plane)
    lowest = sorted(builds.shares, key=lambda each: each.share)[:3]
    shares = ", ".join(f"`{each.id}` {100 * each.share:.0f} %" for each in lowest)
    first = builds.narrowings[0].words if builds.narrowings else "nothing in doubt"
    return f"| {plane.design.name} | {100 * builds.all_pass:.0f} % | {shares} | {first} |"


if __name__ == "__main__":
    print("| plane | pass all | lowest shares | measure first |\n|---|---|---|---|")
    for file in sorted(EXAMPLES.glob("*.toml")):
        print(row(file))
