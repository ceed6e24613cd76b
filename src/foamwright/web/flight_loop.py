"""A flight in a thread of its own, kept in step with the clock, and the line to its page."""

from __future__ import annotations

import asyncio
import contextlib
import json
import math
import secrets
import threading
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, Protocol

import numpy as np
from fastapi import WebSocket, WebSocketDisconnect
from nicegui import app as pages

if TYPE_CHECKING:
    from numpy.typing import NDArray

PACKETS = 60.0  # 1/s to the page
LONGEST_GAP = 0.1  # s; a machine that is later than this lets the plane wait for it
PACES = (1.0, 0.5, 0.25)
WAITING = 30  # packets that may wait for a slow page; older ones are dropped
# What one packet holds, in its order; axes ahead, left, up; 32-bit floats.
FIELDS = (
    *("t", "x", "y", "z", "qx", "qy", "qz", "qw", "u", "v", "w"),
    *("aileronLeft", "aileronRight", "elevator", "rudder", "stalledLeft", "stalledRight"),
    *("turns", "throttle", "airspeed", "low", "margin", "load", "pack", "windAhead", "windLeft"),
)

type Packet = NDArray[np.float32]


@dataclass(frozen=True, slots=True)
class Sticks:
    """What the pilot's hands do.

    Attributes:
        roll: Right positive, -1 to 1. [-]
        pitch: Stick back, nose up positive, -1 to 1. [-]
        throttle: 0 to 1. [-]
        yaw: Right positive, -1 to 1. [-]
    """

    roll: float = 0.0
    pitch: float = 0.0
    throttle: float = 0.0
    yaw: float = 0.0


@dataclass(frozen=True, slots=True)
class Pin:
    """Something worth noting on a flight.

    Attributes:
        t: Since the release. [s]
        at: Ahead, left, up. [m]
        words: For the pilot.
    """

    t: float
    at: tuple[float, float, float]
    words: str


class Model(Protocol):
    """What the loop asks of a flight model."""

    step: float

    def start(self) -> float:
        """Put the plane in the hand; hands back the throttle [-]."""
        ...

    def advance(self, sticks: Sticks, steps: int) -> None:
        """Fly some steps on."""
        ...

    def packet(self) -> Packet:
        """The present moment, as FIELDS has it."""
        ...

    def pins(self) -> list[Pin]:
        """What has been noted since it was asked last."""
        ...

    def over(self) -> str:
        """How the flight ended; "" while it goes on."""
        ...


@dataclass(slots=True)
class _Line:
    """The way back to the page."""

    loop: asyncio.AbstractEventLoop
    queue: asyncio.Queue[bytes | str] = field(default_factory=asyncio.Queue)

    def send(self, news: bytes | str) -> None:
        self.loop.call_soon_threadsafe(self._put, news)

    def _put(self, news: bytes | str) -> None:
        if isinstance(news, str) or self.queue.qsize() < WAITING:
            self.queue.put_nowait(news)


class LiveFlight:
    """One plane in one page's sky."""

    def __init__(self, model: Model, *, clock: Callable[[], float] = time.monotonic) -> None:
        self.model = model
        self.sticks = Sticks()
        self.flying = self.paused = False
        self.pace = 1.0
        self.busy = 0.0  # share of one core that the flight took lately
        self.behind = 0.0  # s of flight that the machine had no time for
        self._clock = clock
        self._line: _Line | None = None
        self._wake = threading.Event()
        self._lock = threading.RLock()
        self._thread: threading.Thread | None = None
        self._closing = False

    # ------------------------------------------------------------ the page

    def join(self, line: _Line) -> None:
        """A page looks on; the thread runs as long as one does."""
        self.leave()
        self._line, self._closing = line, False
        self._thread = threading.Thread(target=self._run, name="flight", daemon=True)
        self._thread.start()
        self.again()

    def leave(self, line: _Line | None = None) -> None:
        """The page has gone: stop, unless another one looks on meanwhile."""
        if line is not None and line is not self._line:
            return
        self._closing, self._line = True, None
        self._wake.set()
        if self._thread is not None:
            self._thread.join(timeout=2.0)
            self._thread = None

    def heed(self, message: object) -> None:
        """Do what the page asks; what makes no sense is left undone."""
        if not isinstance(message, dict):
            return
        asked: dict[str, Any] = message  # pyright: ignore[reportUnknownVariableType]
        sticks = _sticks(asked.get("sticks"))
        if sticks is not None:
            self.sticks = sticks
        match asked.get("do"):
            case "throw":
                self.throw()
            case "again":
                self.again()
            case "pause":
                self.pause(on=bool(asked.get("on")))
            case "pace" if asked.get("value") in PACES:
                self.pace = float(asked["value"])
            case _:
                pass

    def take(self, model: Model, words: str) -> None:
        """Go on with another plane or another throw, from the hand."""
        with self._lock:
            self.model = model
        self.again(words)

    # ------------------------------------------------------------ what the pilot does

    def again(self, words: str = "") -> None:
        """Back in the hand."""
        with self._lock:
            throttle = self.model.start()
            self.flying = self.paused = False
            self.sticks = Sticks(throttle=throttle)
            self._say(begin=True, throttle=throttle, says=words, **self._state())
            self._show()

    def throw(self) -> None:
        """Let go."""
        with self._lock:
            self.again("thrown")
            self.flying = True
            self._say(**self._state())
        self._wake.set()

    def pause(self, *, on: bool) -> None:
        """Stop the clock, or let it run on."""
        self.paused = on and self.flying
        self._say(**self._state())
        self._wake.set()

    # ------------------------------------------------------------ the thread

    def _run(self) -> None:
        last, left = self._clock(), 0.0
        while not self._closing:
            if not self.flying or self.paused:
                self._wake.wait()
                self._wake.clear()
                last, left = self._clock(), 0.0
                continue
            now, worked = self._clock(), time.thread_time()
            gap = now - last
            self.behind += max(gap - LONGEST_GAP, 0.0)
            left += min(gap, LONGEST_GAP) * self.pace
            last = now
            with self._lock:
                steps = int(left / self.model.step)
                left -= steps * self.model.step
                if steps and self.flying:
                    self._fly(steps)
            worked = time.thread_time() - worked
            self.busy += 0.02 * (worked / max(gap, 1e-3) - self.busy)
            time.sleep(max(1.0 / PACKETS - (self._clock() - now), 0.001))

    def _fly(self, steps: int) -> None:
        self.model.advance(self.sticks, steps)
        self._show()
        for pin in self.model.pins():
            x, y, z = pin.at
            self._say(pin={"t": pin.t, "x": x, "y": y, "z": z, "words": pin.words})
        words = self.model.over()
        if words:
            self.flying = False
            self._say(over=words, says=words, **self._state())

    # ------------------------------------------------------------ words to the page

    def _state(self) -> dict[str, object]:
        return {"flying": self.flying, "paused": self.paused, "pace": self.pace}

    def _show(self) -> None:
        if self._line is not None:
            self._line.send(self.model.packet().astype("<f4").tobytes())

    def _say(self, **news: object) -> None:
        if self._line is not None:
            self._line.send(json.dumps(news))


def _sticks(values: object) -> Sticks | None:
    """Sticks of a message, each kept within its travel; None when they are no sticks."""
    if not isinstance(values, list) or len(values) != 4:  # pyright: ignore[reportUnknownArgumentType]
        return None
    given: Sequence[object] = values  # pyright: ignore[reportUnknownVariableType]
    if not all(isinstance(value, (int, float)) and math.isfinite(value) for value in given):
        return None
    roll, pitch, throttle, yaw = np.clip(np.asarray(given, float), (-1, -1, 0, -1), 1.0).tolist()
    return Sticks(roll, pitch, throttle, yaw)


# ---------------------------------------------------------------- the line

_FLIGHTS: dict[str, LiveFlight] = {}


def open_line(flight: LiveFlight) -> str:
    """Give a flight an address that nobody can guess.

    Args:
        flight: The flight. [-]

    Returns:
        Path of its web socket. [-]

    Source:
        Definition.

    Example:
        >>> open_line(flight)  # doctest: +SKIP
        '/flight/Zk3...'
    """
    token = secrets.token_urlsafe(18)
    _FLIGHTS[token] = flight
    return f"/flight/{token}"


def close_line(address: str) -> None:
    """End a flight and forget its address.

    Args:
        address: As `open_line` gave it. [-]

    Source:
        Definition.

    Example:
        >>> close_line("/flight/none")
    """
    flight = _FLIGHTS.pop(address.rpartition("/")[2], None)
    if flight is not None:
        flight.leave()


@pages.websocket("/flight/{token}")
async def _fly(socket: WebSocket, token: str) -> None:  # pyright: ignore[reportUnusedFunction]
    """Packets to the page, sticks from it, until it goes."""
    flight = _FLIGHTS.get(token)
    if flight is None:
        await socket.close(code=1008)
        return
    await socket.accept()
    line = _Line(asyncio.get_running_loop())
    await asyncio.to_thread(flight.join, line)
    sending = asyncio.create_task(_send(socket, line))
    try:
        while True:
            text = await socket.receive_text()
            with contextlib.suppress(ValueError):
                flight.heed(json.loads(text))
    except (WebSocketDisconnect, RuntimeError, KeyError):
        pass
    finally:
        sending.cancel()
        await asyncio.to_thread(flight.leave, line)


async def _send(socket: WebSocket, line: _Line) -> None:
    with contextlib.suppress(WebSocketDisconnect, RuntimeError):
        while True:
            news = await line.queue.get()
            if isinstance(news, str):
                await socket.send_text(news)
            else:
                await socket.send_bytes(news)
