"""The workshop's server: whom it answers, what it opens, how soon it is there."""

import os
import time
import urllib.error
import urllib.request
from pathlib import Path

import pytest
from running import Workshop, put_example

pytestmark = [pytest.mark.browser, pytest.mark.slow]

LAN = "127.0.0.2"  # this machine too, but not by its usual name: what a network would see
TALK = "/_nicegui_ws/socket.io/?EIO=4&transport=polling"
UNSTABLE = 10.0  # s, for what takes two or three on a quiet machine


def answer(address, **headers):
    request = urllib.request.Request(address, headers=headers)  # noqa: S310 - own server
    try:
        with urllib.request.urlopen(request, timeout=30) as got:  # noqa: S310
            return got.status, got.read().decode("utf-8", "replace")
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode("utf-8", "replace")


def test_foreign_pages_are_refused(house):
    assert answer(house.address)[0] == 200
    for path in ("", TALK):
        assert answer(house.address + path, Host="plane.example")[0] == 403
        assert answer(house.address + path, Origin="http://plane.example")[0] == 403
        assert answer(house.address + path, Origin="null")[0] == 403


def test_files_outside_are_not_opened(bench):
    (bench.folder.parent / "secret.toml").write_text('name = "do not show"\n')
    (bench.folder / "link.toml").unlink(missing_ok=True)
    (bench.folder / "link.toml").symlink_to(bench.folder.parent / "secret.toml")
    names = ("../secret.toml", "%2Fetc%2Fpasswd", "..%2F..%2Fsecret.toml", "link.toml",
             ".cob.unsaved.toml", "%00", "a" * 3000)  # fmt: skip
    for name in names:
        status, body = answer(f"{bench.address}/file?file={name}")
        assert status in (200, 400, 414), name
        assert "do not show" not in body
        assert "root:" not in body
    (bench.folder / "link.toml").unlink()


def test_a_taken_port_gives_the_next(house, tmp_path):
    put_example(tmp_path / "cob.toml")
    other = Workshop(tmp_path).start(port=house.port)
    try:
        assert "is taken" in "".join(other.said)
        assert other.port > house.port
        assert answer(other.address)[0] == 200
    finally:
        other.kill()


def test_the_network_needs_the_token(tmp_path, chromium):
    put_example(tmp_path / "cob.toml")
    running = Workshop(tmp_path).start("--bind", LAN)
    try:
        said = "".join([*running.said, running.process.stdout.readline()])
        assert "careful" in said
        entrance = said.partition("open at ")[2].split()[0]
        assert "token=" in entrance
        for path in ("/", TALK, "/shape?file=cob.toml", "/?token=wrong"):
            assert answer(running.address + path)[0] == 403
        assert answer(entrance, Host="plane.example")[0] == 403
        assert answer(entrance, Origin="http://plane.example")[0] == 403
        context = chromium.new_context()
        page = context.new_page()
        page.goto(entrance)
        page.wait_for_selector(".fw-sheet .shape")
        assert "token" not in page.url
        assert page.evaluate("() => document.cookie") == ""  # scripts cannot read it
        page.locator('[data-dim="span"]').focus()
        page.keyboard.press("ArrowUp")
        page.wait_for_selector("text=not saved")  # the socket carries it too
        context.close()
        stranger = chromium.new_page()
        assert stranger.goto(running.address).status == 403
        stranger.close()
    finally:
        running.kill()


def test_the_first_page_is_there_soon(tmp_path, open_page, capsys):
    put_example(tmp_path / "cob.toml")
    running = Workshop(tmp_path).start()
    try:
        began = time.perf_counter()
        page = open_page(running, "", "")
        page.wait_for_selector(".fw-sheet .shape")
        useful = time.perf_counter() - began
        page.wait_for_selector(".fw-hints li")
        assert page.locator(".fw-hints li").count() == 3
        page.get_by_role("button", name="Good").click()
        page.wait_for_function("() => localStorage.getItem('foamwright-hints') === 'seen'")
        page.reload()
        page.wait_for_selector(".fw-board[data-ready]")
        assert not page.locator(".fw-hints").is_visible()
        with capsys.disabled():
            print(  # noqa: T201 - a measurement to be read
                f"\nfrom the command to the first answer {running.start_time:.2f} s, "
                f"from there to the drawing {useful:.2f} s"
            )
        assert running.start_time < UNSTABLE
        assert useful < UNSTABLE
    finally:
        running.kill()


def test_without_a_screen_it_only_says_its_address(tmp_path, monkeypatch):
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "WSL_DISTRO_NAME", "BROWSER"):
        monkeypatch.delenv(name, raising=False)
    put_example(tmp_path / "cob.toml")
    monkeypatch.setenv("BROWSER", str(Path(os.devnull)))  # a browser that cannot be started
    running = Workshop(tmp_path).start()
    try:
        assert answer(running.address)[0] == 200
    finally:
        running.kill()
