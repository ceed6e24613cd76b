"""Steps of planes that are not built the usual way: their own words, and none of the others'."""

import pytest
from shapely import Polygon

from foamwright.book.jobs import JOBS
from foamwright.book.picture import exploded
from foamwright.book.set_up import set_up_blocks
from foamwright.book.steps import build_steps
from foamwright.book.variants import stick_words

BOX = {"fuselage.build": "box"}
BOLTS = {"wing.attachment.kind": "bolts"}
GLUED = {"wing.attachment.kind": "glued"}


def told(plane):
    return {step.id: step for step in build_steps(plane)}


def test_a_profile_is_laminated_and_a_box_is_folded(cob):
    assert "layer on layer" in told(cob)["body"].how[0]
    box = told(cob.with_values(BOX))["body"]
    assert "formers square" in box.how[0]
    assert "layer on layer" not in " ".join(box.how)


def test_the_hatch_of_a_box_is_fitted_and_never_glued(cob):
    steps = told(cob.with_values(BOX))
    assert "fuselage-hatch" not in steps["body"].parts
    assert steps["hatch"].parts == ("fuselage-hatch",)
    assert not steps["hatch"].glue
    assert "hatch" not in told(cob)


@pytest.mark.parametrize(("values", "words"), [(BOLTS, "bolt plates"), (GLUED, "glued for good")])
def test_the_wing_seat_speaks_of_what_holds_the_wing(cob, values, words):
    plane = cob.with_values(values)
    steps = told(plane)
    if "seat" in steps:
        assert words in steps["seat"].how[0]
        assert "bands" not in " ".join(steps["seat"].how)
    words = str(set_up_blocks(plane))
    assert "rubber bands" not in words
    assert ("wing bolts" in words) == (values is BOLTS)


def test_a_v_tail_has_no_fin_to_square_up(cob):
    roles = {f"servo.{i}.role": role for i, role in
             enumerate(("aileron left", "aileron right", "vee left", "vee right"))}  # fmt: skip
    vee = cob.with_values({"tail.kind": "V", "fin": None, "stab.dihedral": 0.66, **roles})
    steps = told(vee)
    assert steps["stab"].title == "Hinge the V-tail"
    whole = " ".join((*steps["tail"].how, *steps["tail"].checks))
    assert "template" in whole
    assert "Fin" not in whole
    assert "both tail surfaces up" in " ".join(steps["set-up"].how)


def test_the_usual_plane_keeps_the_words_of_the_table(cob):
    table = {job.id: job for job in JOBS}
    for name, step in told(cob).items():
        if name in table and name != "set-up":
            assert step.how == table[name].how
            assert step.title == table[name].title


def test_only_surfaces_that_are_there_are_moved(cob):
    wing = cob.design.wing.model_copy(update={"aileron": None})
    rudder_only = cob.design.model_copy(update={"wing": wing})
    assert stick_words(cob.design).endswith("right aileron up, rudder right, elevator up")
    assert stick_words(rudder_only).endswith("back: rudder right, elevator up")
    assert stick_words(cob.design) in " ".join(told(cob)["set-up"].how)


def test_propeller_is_drawn_with_its_blades_inside_the_circle_they_sweep(cob):
    item = next(item for item in cob.parts.items if item.id == "propeller")
    drawings = {n: exploded([], items=[item], blades=n) for n in (2, 3)}
    assert [len(drawing.patches) for drawing in drawings.values()] == [4, 5]  # circle, hub, blades
    for drawing in drawings.values():
        circle = Polygon(drawing.patches[0].rings[0])
        assert all(circle.buffer(0.001).covers(Polygon(p.rings[0])) for p in drawing.patches[1:])


def test_two_bolts_are_two_to_buy(cob):
    from foamwright.book.shopping import shopping_list

    plane = cob.with_values(BOLTS)
    row = next(one for one in shopping_list(plane, {}) if "bolt" in one.name)
    assert row.need.startswith("2")
    assert row.packs == 2


def test_the_launch_lines_say_what_the_throws_said(cob):
    from foamwright.book.card import launch_lines
    from foamwright.book.throwing import thrown_card

    card = thrown_card(cob)
    lines = launch_lines(cob)
    assert [line[0] for line in lines] == list("1234")
    assert f"{100 * card.best.throttle:.0f} %" in lines[1]
    flown = round(card.usual.share * card.usual.count)
    assert f"simulated throws in calm {flown} flew away" in lines[2]


def test_a_plane_that_cannot_be_thrown_gets_lines_all_the_same(cob, monkeypatch):
    from foamwright.book import card, throwing
    from foamwright.core.errors import ModelError

    def refused(_):
        raise ModelError("no steady flight")

    monkeypatch.setattr(throwing, "thrown_lines", refused)
    assert card.launch_lines(cob)[1].startswith("2. Throttle to 75 %")
