"""The desk of a design, its versions side by side, the words that explain themselves."""

from pathlib import Path
from types import SimpleNamespace

import pytest

from foamwright.checks.compare import compare_checks, compare_figures
from foamwright.core.errors import OutputError
from foamwright.web.desk import Desk
from foamwright.web.dimensions import dimensions_of
from foamwright.web.look import look_of
from foamwright.web.moves import as_written, values_for
from foamwright.web.places import PLACES
from foamwright.web.versions import open_version, versions_of
from foamwright.web.word_pictures import PICTURES
from foamwright.web.words import WORDS

EXAMPLE = Path(__file__).parents[2] / "examples" / "brindle-cob.toml"


@pytest.fixture
def cob(tmp_path):
    file = tmp_path / "cob.toml"
    file.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    return Desk(file)


@pytest.fixture
def page(cob):
    """As much of a page as the list of versions asks for."""
    return SimpleNamespace(
        desk=cob,
        look=None,
        name="cob.toml",
        mending=SimpleNamespace(changes={}),
        plane=lambda: cob.plane,
        shop=SimpleNamespace(folder=cob.file.parent),
    )


@pytest.mark.parametrize("name", ["stab_span", "span", "nose", "dihedral.0", "pack"])
def test_results_of_a_drag_are_taken_over_when_it_is_let_go(cob, name):
    plane = cob.plane
    dimension = next(d for d in dimensions_of(plane) if d.id == name)
    values = values_for(plane, name, dimension.value + (0.0254 / 16 if "." not in name else 0.01))
    moved = plane.with_values(as_written(values, dimension.kind, plane.design.units))
    cob.change(values, name, known=moved)
    assert cob.plane is moved
    assert cob.plane.path == cob.file
    cob.undo()
    assert cob.plane is plane
    cob.change({"stab.span": 0.31}, "stab span", known=moved)
    assert cob.plane is not moved  # it is another plane by now


def test_all_pages_share_one_look(cob):
    first = look_of(cob)
    assert look_of(cob) is first
    cob.change({"stab.span": 0.3}, "stab span")
    assert look_of(cob) is not first


def test_every_kind_of_version_is_listed(cob, page):
    cob.change({"stab.span": 0.3}, "stab span")
    cob.save()
    cob.change({"stab.chord": 0.1}, "stab chord")
    cob.hold(None)
    other = cob.file.with_name("other.toml")
    other.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    listed = versions_of(page)
    kinds = {name.partition("-")[0] for name in listed}
    assert {"now", "held", "saved", "back", "kept", "file"} <= kinds
    assert listed["back-1"].words == "before: stab chord"
    kept = next(name for name in listed if name.startswith("kept-"))
    assert open_version(page, kept)[1].design.stab.span == pytest.approx(13 * 0.0254)
    assert open_version(page, "saved")[1].design.stab.span == pytest.approx(0.3)
    with pytest.raises(OutputError, match="no longer there"):
        open_version(page, "file-../secret.toml")


def test_a_version_that_cannot_be_read_says_so(cob, page):
    cob.file.with_name("bad.toml").write_text("[wing]\nspan = 3\n", encoding="utf-8")
    with pytest.raises(OutputError, match=r"bad\.toml”"):
        open_version(page, "file-bad.toml")


def test_two_planes_are_compared_figure_by_figure(cob):
    before = cob.plane
    after = before.with_values({"pack.mass": 0.2, "stab.span": 0.25})
    rows = {row.name: row for row in compare_figures(before, after)}
    mass = rows["all-up mass"]
    assert mass.after - mass.before == pytest.approx(
        after.balance.all_up_mass - before.balance.all_up_mass
    )
    assert rows["span"].before == rows["span"].after
    pairs = compare_checks(before, after)
    assert all(old.id == new.id for old, new in pairs)
    gains = [new.margin - old.margin for old, new in pairs if None not in (old.margin, new.margin)]
    assert gains == sorted(gains)  # what loses most comes first
    assert compare_checks(before, before) == ()


def test_every_drawing_belongs_to_a_word():
    assert set(PICTURES) <= set(WORDS)
    assert {"washout", "static margin", "decalage"} <= set(PICTURES)


def test_places_stand_in_the_order_of_the_job():
    names = list(PLACES)
    assert names.index("shape") < names.index("sheets") < names.index("build")
    orders = [place.order for place in PLACES.values()]
    assert orders == sorted(orders)
    assert len({place.title for place in PLACES.values()}) == len(PLACES)
