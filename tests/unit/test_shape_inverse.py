"""Backwards folding: from a wanted section to spar and creases; what the paper stands."""

from dataclasses import replace

import numpy as np
import pytest

import foam_samples as samples
import foamwright
from foamwright.core.errors import DesignError, ModelError
from foamwright.parts.build import build_parts
from foamwright.shape.airframe import build_airframe
from foamwright.shape.folded import FoldedRecipe, folded_section
from foamwright.shape.inverse import closest_fold
from foamwright.shape.outline import outline_distance, outline_of
from foamwright.shape.paper import paper_radius

KNOWN = FoldedRecipe((0.09, 0.21), False, None, 0.010, 0.0254, 0.30, "none")


def loop(section):
    return np.array([*section.upper[::-1], *section.lower[1:]])


def test_a_folded_section_is_found_again():
    wanted = loop(folded_section(KNOWN, 0.19, 0.005))
    fit = closest_fold(wanted, 0.19, thickness=0.005)
    assert fit.strips == 2
    assert fit.recipe.spar_position == pytest.approx(0.30, abs=0.021)
    # Within 0.2 mm of what it was made from.
    assert fit.largest * 0.19 < 0.0002


def test_any_height_comes_at_least_as_near_as_whole_strips():
    strips = closest_fold("clark-y", 0.19, thickness=0.005, creases=1)
    free = closest_fold("clark-y", 0.19, thickness=0.005, creases=1, whole_strips=False)
    assert free.rms <= strips.rms + 1e-4
    assert free.strips is None


def test_the_fit_is_what_its_recipe_folds():
    fit = foamwright.closest_fold("clark-y", 0.2, thickness=0.0048, creases=1)
    again = folded_section(fit.recipe, 0.2, 0.0048)
    assert again.upper == fit.section.upper
    assert fit.rms < 0.005


def test_direction_and_scale_of_the_coordinates_do_not_matter():
    points = loop(folded_section(KNOWN, 0.19, 0.005))
    over, under = outline_of(points)
    turn = np.array([[0.8, -0.6], [0.6, 0.8]])
    for other in (points[::-1], 3.0 * points @ turn.T + [5.0, -2.0]):
        upper, lower = outline_of(other)
        assert outline_distance(over, under, upper=upper, lower=lower)[1] < 1e-9


@pytest.mark.parametrize(
    ("target", "words"),
    [
        ("unheard of", 'must be "clark-y" or the coordinates'),
        ([[0, 0], [1, 1]], "at least five points"),
        ([[1, 0], [0.5, 0.1], [0, 0], [0.2, -0.02], [0.3, -0.03]], "round the nose and back"),
        ([[1, 0], [0.2, 0.1], [0.5, 0.12], [0, 0], [0.5, -0.02], [1, 0]], "double back"),
        ([[1, 0], [0.5, float("nan")], [0, 0], [0.5, -0.02], [1, 0]], "finite numbers"),
    ],
)
def test_bad_targets_say_why(target, words):
    with pytest.raises(DesignError, match=words):
        closest_fold(target, 0.19, thickness=0.005)


def test_a_chord_too_short_to_fold_says_why():
    with pytest.raises(DesignError, match="needs at least 60 mm"):
        closest_fold("clark-y", 0.05, thickness=0.005)
    with pytest.raises(DesignError, match="0 to 3 creases"):
        closest_fold("clark-y", 0.19, thickness=0.005, creases=5)


def test_paper_radius_by_hand():
    # Strain at three times 10 MPa / 3.5 GPa = 0.857 %; half of 5 mm over that: 291.7 mm.
    assert paper_radius(0.005, modulus=3.5e9, strength=10e6) == pytest.approx(0.29167, rel=1e-4)
    with pytest.raises(ModelError, match="above zero"):
        paper_radius(0.005, modulus=0.0, strength=1.0)


def test_more_creases_make_gentler_bends():
    def radius(creases):
        recipe = FoldedRecipe(creases, True, None, 0.010, 0.0254, 0.27, "none")
        return folded_section(recipe, 0.19, 0.005).bend_radius

    assert radius(()) < radius((0.1,)) < radius((0.1, 0.2))


def test_a_skin_bent_too_tightly_says_so():
    stock = samples.sample_stock()
    board = stock.boards["light display board"]
    paper = {
        "paper_modulus": samples.exact(3.5e9),
        "paper_compressive_strength": samples.exact(1e7),
    }

    stock = replace(stock, boards={board.name: replace(board, **paper)})
    design = samples.design(wing=samples.wing((samples.panel(0.5, 0.19),), creases=0))
    made = build_parts(design, build_airframe(design, 0.005), stock)
    skin = next(part for part in made.parts if part.id == "wing-skin-1-right")
    assert "tighter than the inner paper stands (about 292 mm)" in skin.notes
