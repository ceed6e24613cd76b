"""A shape that cannot be folded is told with its file and line, as any other fault."""

from pathlib import Path

import pytest

import foamwright
from foamwright.core.errors import DesignErrors

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


def test_too_tall_a_spar_is_told_with_its_line(tmp_path):
    text = (EXAMPLES / "brindle-cob.toml").read_text(encoding="utf-8")
    lines = ["strips = 6" if line.startswith("strips = ") else line for line in text.splitlines()]
    file = tmp_path / "tall.toml"
    file.write_text("\n".join(lines), encoding="utf-8")
    with pytest.raises(
        DesignErrors, match=r"tall\.toml:\d+: wing\.spar\.strips is .* Take a strip out"
    ):
        foamwright.load(file)
