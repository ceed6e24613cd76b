"""Folding backwards from the command line."""

import tomllib

import pytest

from foamwright.cli.shell import run

# Clark-Y ordinates, per cent of chord, as printed (NACA Report 431): station, upper, lower.
CLARK_Y = [
    (100, 0.12, 0.0), (80, 5.22, 0.0), (60, 9.15, 0.0), (40, 11.40, 0.0), (30, 11.70, 0.0),
    (20, 11.36, 0.03), (10, 9.60, 0.42), (5, 7.90, 0.93), (2.5, 6.50, 1.47), (0, 3.50, 3.50),
]  # fmt: skip


def written(text):
    """The lines for a design file, read as such."""
    return tomllib.loads(text[text.index("[wing]") :])


def test_the_answer_is_a_piece_of_a_design_file(cob, capsys):
    assert run(["fold", "--chord", "190 mm", "--thickness", "4.76 mm"]) == 0
    out = capsys.readouterr().out
    found = written(out)
    assert found["wing"]["creases"] == 2
    assert found["wing"]["spar"]["strips"] == 2
    # What is said of it is what the design file gives: the trainer with that wing.
    changed = cob.with_values(
        {
            "wing.panel.0.chord": 0.19,
            "wing.creases": 2,
            "wing.crease_positions": tuple(found["wing"]["crease_positions"]),
            "wing.spar.position": found["wing"]["spar"]["position"],
            "wing.spar.strips": 2,
        }
    )
    section = changed.airframe.wing.panels[0].section
    assert f"{100 * section.thickness_ratio:.1f} %" in out


def test_coordinates_from_a_file_give_the_same_as_the_name(tmp_path, capsys):
    over = [(x, up) for x, up, _ in CLARK_Y]
    under = [(x, low) for x, _, low in CLARK_Y[:-1]][::-1]
    file = tmp_path / "section.txt"
    rows = "\n".join(f"{x / 100:.4f}, {z / 100:.4f}" for x, z in over + under)
    file.write_text(f"A section\n{rows}\n")
    run(["fold", str(file), "--chord", "7 3/4 in"])
    own = written(capsys.readouterr().out)
    run(["fold", "--chord", "7 3/4 in"])
    named = written(capsys.readouterr().out)
    assert own["wing"]["spar"]["strips"] == named["wing"]["spar"]["strips"]
    assert own["wing"]["spar"]["position"] == pytest.approx(
        named["wing"]["spar"]["position"], abs=0.03
    )


def test_any_height_tells_what_to_pack_it_to(capsys):
    run(["fold", "--chord", "190 mm", "--any-height", "--creases", "0"])
    assert "pack it to that height" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["no-such.txt", "--chord", "190 mm"], "no such file"),
        (["--chord", "190"], "a length needs its unit"),
        (["--chord", "40 mm"], "needs at least 60 mm"),
        ([], "--chord"),
    ],
)
def test_wrong_calls_say_why(words, said, capsys):
    assert run(["fold", *words]) == 2
    assert said in capsys.readouterr().err


def test_a_file_without_coordinates(tmp_path, capsys):
    file = tmp_path / "words.txt"
    file.write_text("nothing but words\n")
    assert run(["fold", str(file), "--chord", "190 mm"]) == 2
    assert "at least five points" in capsys.readouterr().err
