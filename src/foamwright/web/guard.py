"""Who may talk to the workshop: pages it served itself, on this machine, and nobody else."""

from collections.abc import Awaitable, Callable, MutableMapping
from typing import Any
from urllib.parse import urlsplit

type Scope = MutableMapping[str, Any]
type Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
type Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
type App = Callable[[Scope, Receive, Send], Awaitable[None]]

LARGEST_BODY = 2_000_000  # bytes; a design has at most one million
NAMES = ("127.0.0.1", "localhost")
# Pages run scripts of this server only and load nothing from elsewhere; the page library compiles
# its templates in the browser, which needs the two "unsafe" words.
POLICY = (
    "default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval' blob:; "
    "style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; "
    "connect-src 'self' ws://127.0.0.1:* ws://localhost:*; worker-src 'self' blob:; "
    "frame-ancestors 'none'; form-action 'self'; base-uri 'self'; object-src 'none'"
)
HEADERS = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
)


def refusal(headers: list[tuple[bytes, bytes]], port: int) -> str:
    """Why a request is refused.

    A page of another site may reach this machine through a name of its own (Host) or by script
    (Origin); both give themselves away in these headers.

    Args:
        headers: Of the request, as they came. [-]
        port: That the workshop listens on. [-]

    Returns:
        Words, or "" when the request is welcome. [-]

    Source:
        RFC 6454 (Origin) and RFC 9110 section 7.2 (Host).

    Example:
        >>> refusal([(b"host", b"127.0.0.1:8137")], 8137)
        ''
        >>> refusal([(b"host", b"plane.example:8137")], 8137)
        'the workshop answers only to this machine'
    """
    hosts = [value.decode("latin-1") for name, value in headers if name.lower() == b"host"]
    origins = [value.decode("latin-1") for name, value in headers if name.lower() == b"origin"]
    welcome = {f"{name}:{port}" for name in NAMES}
    if len(hosts) != 1 or hosts[0].lower() not in welcome:
        return "the workshop answers only to this machine"
    for origin in origins:
        parts = urlsplit(origin)
        if parts.scheme != "http" or parts.netloc.lower() not in welcome:
            return "the workshop answers only to its own pages"
    lengths = [value for name, value in headers if name.lower() == b"content-length"]
    if any(not value.isdigit() or int(value) > LARGEST_BODY for value in lengths):
        return "that is more than a design file can hold"
    return ""


class Guard:
    """Stands before the server's application and turns foreign requests away."""

    def __init__(self, app: App, port: int) -> None:
        self._app = app
        self._port = port

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        words = refusal(scope["headers"], self._port)
        if not words:
            await self._app(scope, receive, _adding(send))
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008, "reason": words})
        else:
            await _say(send, words)


def _adding(send: Send) -> Send:
    """Add the headers that keep a page to itself."""

    async def sending(message: MutableMapping[str, Any]) -> None:
        if message["type"] == "http.response.start":
            message["headers"] = [*message.get("headers", ()), *HEADERS]
        await send(message)

    return sending


async def _say(send: Send, words: str) -> None:
    body = f"Refused: {words}.\n".encode()
    headers = [
        (b"content-type", b"text/plain; charset=utf-8"),
        (b"content-length", str(len(body)).encode()),
    ]
    await send({"type": "http.response.start", "status": 403, "headers": headers})
    await send({"type": "http.response.body", "body": body})
