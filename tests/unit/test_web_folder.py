"""What the workshop may open, whom it answers, what a moved dimension changes."""

import asyncio
import socket
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest

from foamwright.checks.run import verdicts
from foamwright.core.errors import DesignError, DesignErrors, OutputError
from foamwright.web.desk import Desk, recovery_file
from foamwright.web.dimensions import dimensions_of, morphs_of, typed
from foamwright.web.figure import figure_of
from foamwright.web.findings import LAID_OUT, findings_of, quick_findings
from foamwright.web.folder import designs, inside
from foamwright.web.guard import Door, Guard, admitted, carries_token, refusal
from foamwright.web.moves import values_for
from foamwright.web.plot import Curve, line_plot, ticks
from foamwright.web.serve import free_socket

EXAMPLE = Path(__file__).parents[2] / "examples" / "brindle-cob.toml"


@pytest.fixture
def cob(tmp_path):
    file = tmp_path / "cob.toml"
    file.write_text(EXAMPLE.read_text(encoding="utf-8"), encoding="utf-8")
    return Desk(file)


@pytest.mark.parametrize(
    "name",
    ["../a.toml", "/etc/passwd", "", ".", "notes.txt", ".hidden.toml", "stock.toml", "a\0.toml"],
)
def test_nothing_outside_the_folder_is_opened(tmp_path, name):
    with pytest.raises(OutputError):
        inside(tmp_path, name)


def test_links_out_of_the_folder_are_not_followed(tmp_path):
    (tmp_path / "in").mkdir()
    (tmp_path / "secret.toml").write_text("[wing]\n")
    (tmp_path / "in" / "cob.toml").symlink_to(tmp_path / "secret.toml")
    with pytest.raises(OutputError, match="outside"):
        inside(tmp_path / "in", "cob.toml")


def test_only_designs_are_listed(cob):
    folder = cob.file.parent
    cob.change({"stab.span": 0.3}, "stab span")
    (folder / "cob.bench.toml").write_text("[[reading]]\n")
    (folder / "other.toml").write_text('name = "no plane"\n')
    assert designs(folder) == [cob.file]


@pytest.mark.parametrize(
    ("name", "value", "welcome"),
    [
        (b"host", b"127.0.0.1:80", True),
        (b"host", b"localhost:80", True),
        (b"host", b"127.0.0.1:81", False),
        (b"host", b"plane.example:80", False),
        (b"host", b"127.0.0.1.plane.example:80", False),
        (b"origin", b"http://localhost:80", True),
        (b"origin", b"http://127.0.0.1:80", False),
        (b"origin", b"http://plane.example", False),
        (b"origin", b"https://127.0.0.1:80", False),
        (b"origin", b"null", False),
        (b"content-length", b"100", True),
        (b"content-length", b"99000000", False),
        (b"content-length", b"x", False),
    ],
)
def test_foreign_requests_are_refused(name, value, welcome):
    headers = [(name, value)] if name == b"host" else [(b"host", b"localhost:80"), (name, value)]
    assert (refusal(headers, Door(80)) == "") is welcome


LAN = Door(80, names=("192.0.2.7",), token="right")  # noqa: S106 - made up


@pytest.mark.parametrize(
    ("cookie", "carries"),
    [
        (b"foamwright-80=right", True),
        (b"other=1; foamwright-80=right", True),
        (b"foamwright-80=wrong", False),
        (b"foamwright-81=right", False),
        (b"foamwright-80=", False),
        (b"\xff;;=", False),
    ],
)
def test_a_request_from_the_network_carries_the_token(cookie, carries):
    assert carries_token([(b"cookie", cookie)], LAN) is carries
    assert carries_token([], Door(80))


@pytest.mark.parametrize(
    ("path", "query", "onward"),
    [
        ("/shape", b"file=a.toml&token=right", "/shape?file=a.toml"),
        ("/", b"token=right", "/"),
        ("/", b"token=wrong", None),
        ("/", b"", None),
        ("//plane.example/x", b"token=right", "/plane.example/x"),
    ],
)
def test_the_first_visit_is_sent_on_without_the_token(path, query, onward):
    assert admitted({"type": "http", "path": path, "query_string": query}, LAN) == onward


def complete(answer):
    """Run to its end in a thread of its own: this one may have the loop of a browser in it."""
    with ThreadPoolExecutor(1) as thread:
        thread.submit(asyncio.run, answer).result()


def served(door, scope):
    """What a guarded application answers, and whether it was reached."""
    sent, reached = [], []

    async def app(scope, receive, send):
        reached.append(True)
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def receive():
        return {"type": "http.request", "body": b"", "more_body": False}

    async def send(message):
        sent.append(message)

    complete(Guard(app, door)(scope, receive, send))
    return sent[0], bool(reached)


def test_without_the_token_nothing_is_served_to_the_network():
    headers = [(b"host", b"192.0.2.7:80")]
    scope = {"type": "http", "path": "/", "query_string": b"", "headers": headers}
    assert served(LAN, scope)[0]["status"] == 403
    answer, reached = served(LAN, scope | {"query_string": b"token=right"})
    assert (answer["status"], reached) == (303, False)
    cookie = dict(answer["headers"])[b"set-cookie"]
    assert b"HttpOnly" in cookie
    headers.append((b"cookie", cookie.partition(b";")[0]))
    assert served(LAN, scope)[0]["status"] == 200
    closed, reached = served(LAN, scope | {"type": "websocket", "headers": headers[:1]})
    assert (closed["type"], reached) == ("websocket.close", False)


def test_a_body_in_pieces_ends_where_a_design_file_would():
    """The application gets no more of a body than that, however it is sent."""
    taken = []

    async def app(scope, receive, send):
        while (message := await receive())["type"] == "http.request":
            taken.append(len(message["body"]))

    async def receive():
        return {"type": "http.request", "body": b"x" * 900_000, "more_body": True}

    async def send(message):
        pytest.fail("nothing is to be answered")

    scope = {"type": "http", "path": "/", "headers": [(b"host", b"localhost:80")]}
    complete(Guard(app, Door(80))(scope, receive, send))
    assert sum(taken) <= 2_000_000


def test_an_address_of_another_machine_is_explained():
    with pytest.raises(OutputError, match="no address of this machine"):
        free_socket(0, print, host="192.0.2.1")


def test_a_taken_port_gives_the_next():
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port, said = taken.getsockname()[1], []
        with free_socket(port, said.append) as other:
            assert other.getsockname()[1] > port
        assert str(port) in said[0]


def test_every_dimension_can_be_written_back(cob):
    """A dimension moved by a step reads the new value, and only what it names has changed."""
    plane = cob.plane
    for dimension in dimensions_of(plane):
        wanted = dimension.value + (0.01 if dimension.kind == "length" else 0.02)
        moved = plane.with_values(values_for(plane, dimension.id, wanted))
        now = {d.id: d.value for d in dimensions_of(moved)}
        assert now[dimension.id] == pytest.approx(wanted, abs=1e-9), dimension.id
        still = {"nose": ("wing_position",), "wing_position": ("nose", "arm")}
        for other in dimensions_of(plane):
            if other.id != dimension.id and other.id not in still.get(dimension.id, ()):
                assert now[other.id] == pytest.approx(other.value, abs=2e-3), other.id


def test_a_longer_nose_keeps_the_tail_arm(cob):
    plane = cob.plane
    moved = plane.with_values(values_for(plane, "nose", plane.design.wing.position + 0.05))
    for table in ("stab", "fin"):
        was, now = getattr(plane.design, table).position, getattr(moved.design, table).position
        assert now - was == pytest.approx(0.05)
    assert moved.design.fuselage.length - plane.design.fuselage.length == pytest.approx(0.05)


def test_morphs_foretell_the_outlines(cob):
    """Half a step along a morph lies on the true outline to a tenth of a millimetre."""
    plane = cob.plane
    morphs = morphs_of(plane)
    for name, by in (("span", 0.02), ("stab_span", 0.02), ("arm", 0.03), ("pack", 0.01)):
        value = next(d.value for d in dimensions_of(plane) if d.id == name)
        true = figure_of(plane.with_values(values_for(plane, name, value + by)))
        for view, steps in morphs[name]["views"].items():
            shapes = figure_of(plane)[view]
            for shape, step, wanted in zip(shapes, steps, true[view], strict=False):
                for at, slope, point in zip(
                    shape.get("points", ()), step or (), wanted.get("points", ()), strict=False
                ):
                    for axis in (0, 1):
                        assert at[axis] + by * slope[axis] == pytest.approx(point[axis], abs=1e-3)


@pytest.mark.parametrize(
    ("text", "kind", "units", "value"),
    [
        ("300", "length", "metric", 0.3),
        ("12", "length", "inch", 0.3048),
        ("1' 2\"", "length", "metric", 0.3556),
        ("3", "angle", "inch", 0.05235987755982989),
    ],
)
def test_typed_values(text, kind, units, value):
    assert typed(text, kind, units) == pytest.approx(value)


def test_nonsense_is_refused():
    with pytest.raises(DesignError, match="wide"):
        typed("wide", "length", "inch")


def test_undo_and_redo_have_no_limit(cob):
    first = cob.text
    texts = [first]
    for step in range(40):
        cob.change({"stab.span": 0.3 + 0.001 * step}, "stab span")
        texts.append(cob.text)
    for text in reversed(texts[:-1]):
        cob.undo()
        assert cob.text == text
    assert cob.back == ""
    assert cob.plane is not None
    for text in texts[1:]:
        cob.redo()
        assert cob.text == text
    assert cob.plane.design.stab.span == pytest.approx(0.339)
    assert "# trailing edge up at the tip" in cob.text


def test_a_refused_change_leaves_everything_as_it_was(cob):
    before = cob.text
    with pytest.raises(DesignErrors):
        cob.change({"wing.panel.0.chord": 5.0}, "chord")
    assert cob.text == before
    assert cob.back == ""


def test_unsaved_work_is_kept_and_offered(cob):
    cob.change({"stab.span": 0.3}, "stab span")
    again = Desk(cob.file)
    assert again.unsaved == cob.text
    again.take_unsaved()
    assert again.text == cob.text
    again.save()
    assert not recovery_file(cob.file).exists()
    assert Desk(cob.file).unsaved is None
    assert [path.read_text() for path in again.versions()] == [EXAMPLE.read_text()]


def test_what_another_program_writes_is_noticed(cob):
    cob.change({"stab.span": 0.3}, "stab span")
    mine = cob.text
    theirs = cob.saved.replace('"Brindle Cob"', '"Brindle Cob 2"')
    cob.file.write_text(theirs)
    assert cob.look_again()
    assert cob.on_disk == theirs
    cob.keep_mine()
    assert cob.text == mine
    cob.file.write_text(theirs + "\n# more\n")
    assert cob.look_again()
    cob.take_disk()
    assert cob.plane.design.name == "Brindle Cob 2"
    cob.undo()
    assert cob.text == mine


def test_round_ticks():
    assert ticks(0.3, 9.7) == [0, 2, 4, 6, 8, 10]


def test_a_plot_names_axes_and_curves():
    text = line_plot(
        [Curve("a", (0, 1), (0, 2)), Curve("b < c", (0, 1), (1, 1))],
        x_label="speed in m/s",
        y_label="force in N",
        title="Forces",
    )
    assert "speed in m/s" in text
    assert "b &lt; c" in text
    assert text.count("<polyline") == 2


def test_findings_of_a_drag_wait_for_no_layout(cob):
    """Laying the parts out takes as long as all other checks together."""
    plane = cob.plane
    settled = findings_of(verdicts(plane), "inch")
    moved = plane.with_values({"stab.span": 0.28})
    quick = quick_findings(moved, settled)
    assert "layout" not in vars(moved)
    whole = {row["id"]: row["verdict"] for row in findings_of(verdicts(moved), "inch")}
    assert {row["id"] for row in quick} == set(whole)
    assert all(row["verdict"] == whole[row["id"]] for row in quick if row["id"] not in LAID_OUT)
