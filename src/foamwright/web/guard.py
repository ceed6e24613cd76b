"""Who may talk to the workshop: pages it served itself, and nobody else.

On this machine alone that takes no password: no other machine can reach it, and a page of another
site gives itself away. Opened to the network, every request must carry a token besides.
"""

from __future__ import annotations

import hmac
from collections.abc import Awaitable, Callable, MutableMapping
from dataclasses import dataclass
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import parse_qsl, urlencode, urlsplit

type Scope = MutableMapping[str, Any]
type Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
type Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]
type App = Callable[[Scope, Receive, Send], Awaitable[None]]
type Headers = list[tuple[bytes, bytes]]

LARGEST_BODY = 2_000_000  # bytes; a design has at most one million
NAMES = ("127.0.0.1", "localhost")
TOKEN = "token"  # noqa: S105 - the name of a query word, not a secret
# Pages run scripts of this server only and load nothing from elsewhere; the page library compiles
# its templates in the browser, which needs the two "unsafe" words.
POLICY = (
    "default-src 'self'; script-src 'self' 'unsafe-inline' 'unsafe-eval' blob:; "
    "style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; font-src 'self' data:; "
    "connect-src 'self' ws://{host}; worker-src 'self' blob:; "
    "frame-ancestors 'none'; form-action 'self'; base-uri 'self'; object-src 'none'"
)
HEADERS = (
    (b"x-content-type-options", b"nosniff"),
    (b"x-frame-options", b"DENY"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-resource-policy", b"same-origin"),
)


@dataclass(frozen=True, slots=True)
class Door:
    """How the workshop may be reached.

    Attributes:
        port: That it listens on.
        names: Hosts that it answers to.
        token: That every request must carry; "" when no other machine can reach it.
    """

    port: int
    names: tuple[str, ...] = NAMES
    token: str = ""

    @property
    def cookie(self) -> str:
        """Name of the cookie that keeps the token; cookies know no ports, so it says its own."""
        return f"foamwright-{self.port}"


def refusal(headers: Headers, door: Door) -> str:
    """Why a request is refused, whatever token it carries.

    A page of another site may reach this machine through a name of its own (Host) or by script
    (Origin); both give themselves away in these headers.

    Args:
        headers: Of the request, as they came. [-]
        door: How the workshop may be reached. [-]

    Returns:
        Words, or "" when the request is welcome. [-]

    Source:
        RFC 6454 (Origin) and RFC 9110 section 7.2 (Host).

    Example:
        >>> refusal([(b"host", b"127.0.0.1:8137")], Door(8137))
        ''
        >>> refusal([(b"host", b"plane.example:8137")], Door(8137))
        'the workshop answers only to its own address'
    """
    hosts = _all(headers, b"host")
    welcome = {f"{name}:{door.port}".lower() for name in door.names}
    if len(hosts) != 1 or hosts[0].lower() not in welcome:
        return "the workshop answers only to its own address"
    for origin in _all(headers, b"origin"):
        parts = urlsplit(origin)
        if parts.scheme != "http" or parts.netloc.lower() != hosts[0].lower():
            return "the workshop answers only to its own pages"
    lengths = _all(headers, b"content-length")
    if any(not value.isdigit() or int(value) > LARGEST_BODY for value in lengths):
        return "that is more than a design file can hold"
    return ""


def _all(headers: Headers, wanted: bytes) -> list[str]:
    return [value.decode("latin-1") for name, value in headers if name.lower() == wanted]


def carries_token(headers: Headers, door: Door) -> bool:
    """Whether a request carries the token in its cookie.

    Args:
        headers: Of the request, as they came. [-]
        door: How the workshop may be reached. [-]

    Returns:
        True when it does, or when none is asked for. [-]

    Source:
        RFC 6265 (cookies).

    Example:
        >>> door = Door(8137, token="abc")
        >>> carries_token([(b"cookie", b"foamwright-8137=abc")], door), carries_token([], door)
        (True, False)
    """
    if not door.token:
        return True
    for line in _all(headers, b"cookie"):
        try:
            found = SimpleCookie(line).get(door.cookie)
        except CookieError:
            continue
        if found is not None and _same(found.value, door.token):
            return True
    return False


def _same(said: str, token: str) -> bool:
    return hmac.compare_digest(said.encode(), token.encode())


def admitted(scope: Scope, door: Door) -> str | None:
    """Where a first visit that carries the token in its address is sent on to.

    Args:
        scope: Of the request. [-]
        door: How the workshop may be reached. [-]

    Returns:
        The same address without the token; None when it carries none, or a wrong one. [-]

    Source:
        Definition.

    Example:
        >>> scope = {"type": "http", "path": "/shape", "query_string": b"file=a.toml&token=abc"}
        >>> admitted(scope, Door(8137, token="abc"))
        '/shape?file=a.toml'
    """
    if scope["type"] != "http" or not door.token:
        return None
    pairs = parse_qsl(scope["query_string"].decode("latin-1"), keep_blank_values=True)
    if not any(name == TOKEN and _same(value, door.token) for name, value in pairs):
        return None
    rest = urlencode([pair for pair in pairs if pair[0] != TOKEN])
    path = "/" + str(scope["path"]).lstrip("/")  # "//host" would lead to another site
    return f"{path}?{rest}" if rest else path


class Guard:
    """Stands before the server's application and turns foreign requests away."""

    def __init__(self, app: App, door: Door) -> None:
        self._app = app
        self._door = door

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or refuse it."""
        if scope["type"] not in ("http", "websocket"):
            await self._app(scope, receive, send)
            return
        door, headers = self._door, scope["headers"]
        words = refusal(headers, door)
        if not words and not carries_token(headers, door):
            onward = admitted(scope, door)
            if onward is not None:
                await _let_in(send, onward, door)
                return
            words = "open the address that the terminal printed, token included"
        if not words:
            host = _all(headers, b"host")[0]
            await self._app(scope, _limited(receive), _adding(send, host))
        elif scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008, "reason": words})
        else:
            await _say(send, words)


def _limited(receive: Receive) -> Receive:
    """End a request whose body, sent in pieces, grows beyond what a design file can hold."""
    taken = 0

    async def receiving() -> MutableMapping[str, Any]:
        nonlocal taken
        message = await receive()
        if message["type"] == "http.request":
            taken += len(message.get("body", b""))
            if taken > LARGEST_BODY:
                return {"type": "http.disconnect"}
        return message

    return receiving


def _adding(send: Send, host: str) -> Send:
    """Add the headers that keep a page to itself."""
    policy = (b"content-security-policy", POLICY.format(host=host).encode("latin-1"))

    async def sending(message: MutableMapping[str, Any]) -> None:
        if message["type"] == "http.response.start":
            message["headers"] = [*message.get("headers", ()), policy, *HEADERS]
        await send(message)

    return sending


async def _let_in(send: Send, onward: str, door: Door) -> None:
    cookie = f"{door.cookie}={door.token}; Path=/; HttpOnly; SameSite=Strict"
    headers = [(b"location", onward.encode("latin-1")), (b"set-cookie", cookie.encode()),
               (b"cache-control", b"no-store"), (b"content-length", b"0")]  # fmt: skip
    await send({"type": "http.response.start", "status": 303, "headers": headers})
    await send({"type": "http.response.body", "body": b""})


async def _say(send: Send, words: str) -> None:
    body = f"Refused: {words}.\n".encode()
    headers = [
        (b"content-type", b"text/plain; charset=utf-8"),
        (b"content-length", str(len(body)).encode()),
    ]
    await send({"type": "http.response.start", "status": 403, "headers": headers})
    await send({"type": "http.response.body", "body": body})
