"""Open the workshop: find a free port, start the server on this machine, show the first page."""

from __future__ import annotations

import os
import socket
import threading
import time
import webbrowser
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING
from urllib.parse import quote

from foamwright.core.errors import OutputError
from foamwright.web.folder import inside, name_in

if TYPE_CHECKING:
    import uvicorn

HOST = "127.0.0.1"  # this machine only; nothing else on the network can reach it
PORT = 8137  # any port that few programs use
TRIES = 20  # ports tried in turn when one is taken

type Say = Callable[[str], None]


def free_socket(port: int, say: Say) -> socket.socket:
    """Take a port on this machine, or the next free one.

    Args:
        port: The one wanted. [-]
        say: Told when another one had to be taken. [-]

    Returns:
        A bound socket. [-]

    Raises:
        OutputError: None of the next ports is free.

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
            taking.bind((HOST, number))
            taking.listen(64)
        except (OSError, OverflowError):
            taking.close()
            continue
        if number != port:
            say(f"port {port} is taken, so the workshop uses {number}")
        return taking
    last = port + TRIES - 1
    raise OutputError(f"The ports {port} to {last} are all taken; name another with --port.")


def open_workshop(
    folder: Path, file: Path | None, *, port: int = PORT, browser: bool = True, say: Say = print
) -> int:
    """Serve the workshop until Ctrl-C.

    Args:
        folder: Files under it can be opened, no others. [-]
        file: Design to open first; None takes the newest, or an example. [-]
        port: Wanted; the next free one is taken instead. [-]
        browser: Whether the page is opened in the browser. [-]
        say: Told where the workshop is. [-]

    Returns:
        Exit code. [-]

    Raises:
        OutputError: The file lies outside the folder, or no port is free.

    Source:
        docs/use/workshop.md.

    Example:
        >>> open_workshop(Path("."), None)  # doctest: +SKIP
        0
    """
    first = "" if file is None else f"/shape?file={quote(_name(folder, file))}"
    taken = free_socket(port, say)
    address = f"http://{HOST}:{taken.getsockname()[1]}{first or '/'}"
    say(f"the workshop is open at {address}  (Ctrl-C closes it)")
    # The matrices of one plane are small: threads that wait for each other only slow an answer.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    os.environ.setdefault("OMP_NUM_THREADS", "1")
    import uvicorn

    from foamwright.web.application import make_application

    config = uvicorn.Config(
        make_application(folder, taken.getsockname()[1]),
        log_level="warning",
        access_log=False,
        server_header=False,
        timeout_graceful_shutdown=1,
        ws_max_size=4_000_000,
    )
    server = uvicorn.Server(config)
    if browser:
        threading.Thread(target=_show, args=(server, address), daemon=True).start()
    server.run(sockets=[taken])
    return 0


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
            webbrowser.open(address)
            return
        time.sleep(0.05)
