"""Open the workshop: find a free port, start the server on this machine, show the first page."""

from __future__ import annotations

import contextlib
import errno
import os
import secrets
import socket
import sys
import threading
import time
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from foamwright.core.errors import OutputError
from foamwright.web.folder import inside, name_in
from foamwright.web.guard import NAMES, TOKEN, Door

if TYPE_CHECKING:
    import uvicorn

HOST = "127.0.0.1"  # this machine only; nothing else on the network can reach it
PORT = 8137  # any port that few programs use
TRIES = 20  # ports tried in turn when one is taken

EVERYWHERE = "0.0.0.0"  # noqa: S104 - only when the builder asks for it, and with a token
SOMEWHERE = "192.0.2.1"  # an address kept free for examples, RFC 5737
WARNING = (
    "careful: other machines of this network can reach it now. Whoever has the whole address, "
    "token included, can read and change the designs in this folder, and what passes is not "
    "encrypted: use it in a network you trust, and close it when you are done."
)

type Say = Callable[[str], None]


def free_socket(port: int, say: Say, *, host: str = HOST) -> socket.socket:
    """Take a port on this machine, or the next free one.

    Args:
        port: The one wanted. [-]
        say: Told when another one had to be taken. [-]
        host: Address of this machine that is listened on. [-]

    Returns:
        A bound socket. [-]

    Raises:
        OutputError: None of the next ports is free, or the address is not of this machine.

    Source:
        Definition.

    Example:
        >>> with free_socket(0, print) as taken:
        ...     taken.getsockname()[0]
        '127.0.0.1'
    """
    for number in range(port, port + TRIES):
        taking = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
        if os.name == "posix":  # elsewhere it would let two programs share the port
            taking.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            taking.bind((host, number))
            taking.listen(64)
        except (OSError, OverflowError) as error:
            taking.close()
            if getattr(error, "errno", None) == errno.EADDRNOTAVAIL or isinstance(
                error, socket.gaierror
            ):
                message = f"{host} is no address of this machine; name one, or 0.0.0.0 for all."
                raise OutputError(message) from None
            continue
        if number != port:
            say(f"port {port} is taken, so the workshop uses {number}")
        return taking
    last = port + TRIES - 1
    raise OutputError(f"The ports {port} to {last} are all taken; name another with --port.")


def open_workshop(
    folder: Path,
    file: Path | None,
    *,
    port: int = PORT,
    host: str = HOST,
    browser: bool = True,
    say: Say = print,
) -> int:
    """Serve the workshop until Ctrl-C.

    Args:
        folder: Files under it can be opened, no others. [-]
        file: Design to open first; None takes the newest, or an example. [-]
        port: Wanted; the next free one is taken instead. [-]
        host: Address of this machine to listen on; any but its own loop asks for a token. [-]
        browser: Whether the page is opened in the browser. [-]
        say: Told where the workshop is. [-]

    Returns:
        Exit code. [-]

    Raises:
        OutputError: The file lies outside the folder, no port is free, or the address is not ours.

    Source:
        docs/use/workshop.md.

    Example:
        >>> open_workshop(Path("."), None)  # doctest: +SKIP
        0
    """
    first = "/" if file is None else f"/shape?file={quote(_name(folder, file))}"
    taken = free_socket(port, say, host=host)
    door = _door(taken.getsockname()[1], host)
    address = _address(first, door, host)
    say(f"the workshop is open at {address}  (Ctrl-C closes it)")
    if door.token:
        say(WARNING)
    # The matrices of one plane are small: threads that wait for each other only slow an answer.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    import uvicorn

    from foamwright.web.application import make_application

    config = uvicorn.Config(
        make_application(folder, door),
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=1,
        ws_max_size=4_000_000,
    )
    server = uvicorn.Server(config)
    if browser and has_screen():
        threading.Thread(target=_show, args=(server, address), daemon=True).start()
    server.run(sockets=[taken])
    return 0


def _door(port: int, host: str) -> Door:
    """Who is let in: on this machine alone anybody, from the network whoever has the token."""
    if host in NAMES:
        return Door(port)
    names = (*NAMES, *own_names()) if host == EVERYWHERE else (host,)
    return Door(port, names=names, token=secrets.token_urlsafe(24))


def _address(first: str, door: Door, host: str) -> str:
    shown = next((name for name in door.names if name not in NAMES), HOST)
    where = f"http://{shown if host not in NAMES else host}:{door.port}{first}"
    return f"{where}{'&' if '?' in first else '?'}{TOKEN}={door.token}" if door.token else where


def own_names() -> tuple[str, ...]:
    """Addresses and names of this machine that others of its network reach it by.

    Returns:
        The address that leads out first; none without a network. [-]

    Source:
        Definition; choosing a way out for a datagram sends nothing.

    Example:
        >>> isinstance(own_names(), tuple)
        True
    """
    found: list[str] = []
    with contextlib.suppress(OSError), socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        probe.connect((SOMEWHERE, 9))
        found.append(probe.getsockname()[0])
    name = socket.gethostname()
    with contextlib.suppress(OSError):
        found += socket.gethostbyname_ex(name)[2]
    found += [name, f"{name}.local"]
    return tuple(dict.fromkeys(entry for entry in found if entry and entry not in NAMES))


def has_screen() -> bool:
    """Whether a browser can be shown; without a screen the address is only printed.

    Returns:
        False on a machine without a desktop. [-]

    Source:
        X11 and Wayland name their display in the environment; elsewhere there always is one.

    Example:
        >>> has_screen() in (True, False)
        True
    """
    if sys.platform in ("win32", "darwin", "cygwin"):
        return True
    names = ("DISPLAY", "WAYLAND_DISPLAY", "WSL_DISTRO_NAME", "BROWSER")
    return any(os.environ.get(name) for name in names)


def _name(folder: Path, file: Path) -> str:
    try:
        return name_in(folder, inside(folder, file.resolve().relative_to(folder).as_posix()))
    except ValueError:
        raise OutputError(
            f"{file} lies outside {folder}; open the workshop in the folder that holds it."
        ) from None


def _show(server: uvicorn.Server, address: str) -> None:
    """Open the browser once the server answers."""
    for _ in range(600):
        if server.started:
            with contextlib.suppress(webbrowser.Error, OSError):
                webbrowser.open(address)
            return
        time.sleep(0.05)
