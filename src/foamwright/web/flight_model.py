"""The plane's flight model as the live view drives it."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from foamwright.book.set_up import EXPO
from foamwright.flight.gauges import Gauges, gauges_of, stall_angles
from foamwright.flight.notes import Note, Watch
from foamwright.flight.simulation.advance import advance
from foamwright.flight.simulation.flaws import Flaws
from foamwright.flight.simulation.state import rotation_of, start_state
from foamwright.flight.simulation.thrower import Thrower
from foamwright.flight.simulation.throws import Launch, refuse_launch
from foamwright.flight.simulation.trim import steady_flight
from foamwright.flight.simulation.wind import windy
from foamwright.flight.sticks import with_expo
from foamwright.web.flight_loop import FIELDS, Pin, Sticks
from foamwright.web.flight_shapes import STRIPS

if TYPE_CHECKING:
    from foamwright.plane import Plane

type Array = NDArray[np.float64]

STEP = 0.005  # s, 200 steps a second
HAND = 0.4  # m ahead of the pilot, where the plane leaves the hand
AWAY, UP = 40.0, 25.0  # m, where a flight begins that begins in the air
ONE = np.zeros(1, dtype=np.intp)  # the one member that flies
SEED = 7  # of the gusts
OPEN = 0.75  # throttle of a throw; common practice, no source


@dataclass(frozen=True, slots=True)
class Setup:
    """How a flight begins and in what air.

    Attributes:
        from_hand: Thrown, or begun in level flight high up.
        speed: Of the throw. [m/s]
        angle: Of the throw, nose up. [rad]
        throttle: At the throw. [-]
        wind: At head height. [m/s]
        wind_from: Where it comes from, right of ahead. [rad]
        gusts: Whether it is gusty.
        flaws: Of the build, on purpose.
    """

    from_hand: bool
    speed: float
    angle: float = math.radians(5.0)
    throttle: float = OPEN
    wind: float = 0.0
    wind_from: float = 0.0
    gusts: bool = False
    flaws: Flaws = field(default_factory=Flaws)


class CraftModel:
    """One plane flown from one setup."""

    step = STEP

    def __init__(self, plane: Plane, setup: Setup) -> None:
        self.setup = setup
        self.craft = plane.flawed(setup.flaws)
        asked = Launch(Thrower(setup.speed), throttle=setup.throttle, wind=setup.wind)
        refuse_launch(self.craft, asked, 1)
        self._stalls = stall_angles(self.craft)
        self._units = plane.design.units
        self._expo = EXPO[plane.design.pilot.level] / 100.0
        self._holds = plane.strength.limit_load_factor
        # Twice the same air for the same setup, so that two flights can be compared.
        self._blow = windy(
            setup.wind,
            1,
            SEED,
            airspeed=self.craft.trim_speed,
            span=self.craft.whole.span,
            origin=setup.wind_from,
            gusts=1.0 if setup.gusts else 0.0,
        )
        self._height = plane.design.pilot.throw_height
        # Without ailerons the rudder is on the stick that would roll, as it is on the radio.
        self._rudder_steers = not plane.airframe.wing.controls
        self._begin = self._steady() if not setup.from_hand else None
        strips = self.craft.strips
        wing = strips.surface == 0
        shown = np.minimum((strips.place * STRIPS).astype(int), STRIPS - 1)
        self._bits = [np.where(wing & (strips.side == side), 1 << shown, 0) for side in (-1, 1)]
        self.start()

    def start(self) -> float:
        """Put the plane in the hand, or up in the air."""
        setup = self.setup
        self.time = 0.0
        self._pins: list[Pin] = []
        throttle = setup.throttle
        if self._begin is not None:
            self.state, throttle = self._begin[0].copy(), self._begin[1]
        else:
            self.state = start_state(
                self.craft.strip_count,
                speed=setup.speed,
                height=self._height,
                attitude=(0.0, setup.angle, 0.0),
                throttle=throttle,
            )
            self.state[0, 0] = HAND
        self.wind = self._air()
        self._gauges = self._read()
        self._watch = Watch(self.craft, self._units, self._holds, from_hand=setup.from_hand)
        self._note(self._watch.start(float(self._gauges.airspeed[0]), self._at()))
        return throttle

    def _steady(self) -> tuple[Array, float]:
        found = steady_flight(self.craft, self.craft.trim_speed, throttle=None)
        state, throttle = found.state[:1].copy(), float(found.sticks[0, 0])
        if not found.found[0]:
            state = start_state(self.craft.strip_count, speed=self.craft.trim_speed, throttle=0.5)
            throttle = 0.5
        state[0, :3] = (AWAY, 0.0, -UP)
        return state, throttle

    def advance(self, sticks: Sticks, steps: int) -> None:
        """Fly some steps on."""
        roll, pitch, yaw = with_expo(np.array([sticks.roll, sticks.pitch, sticks.yaw]), self._expo)
        if self._rudder_steers:
            yaw = float(np.clip(yaw + roll, -1.0, 1.0))
        held = np.array([sticks.throttle, roll, pitch, yaw])
        for _ in range(steps):
            self.wind = self._air()
            self.state = advance(self.craft, self.state, held, self.wind, step=STEP)
            self.time += STEP
        self._gauges = self._read()
        self._note(self._watch.see(self.time, self.state, self._gauges))

    def _air(self) -> Array:
        return self._blow(self.time, self.state, ONE)

    def _read(self) -> Gauges:
        return gauges_of(self.craft, self.state, self.wind, stalls=self._stalls)

    def _at(self) -> tuple[float, float, float]:
        x, y, z = self.state[0, :3].tolist()
        return x, y, z

    def packet(self) -> NDArray[np.float32]:
        """The present moment, axes ahead, left, up."""
        state, seen = self.state[0], self._gauges
        x, y, z, w, i, j, k = state[:7].tolist()
        over = self._over_ground()
        over_grass = self.wind.reshape(-1)[:2].tolist()
        right, left, elevator, rudder = seen.deflections[0].tolist()
        gone = [
            int(np.bitwise_or.reduce(bits[seen.separated[0]], initial=0)) for bits in self._bits
        ]
        values = {
            **{"t": self.time, "x": x, "y": -y, "z": -z, "qw": w, "qx": i, "qy": -j, "qz": -k},
            **{"u": over[0], "v": -over[1], "w": -over[2]},
            **{"aileronLeft": left, "aileronRight": right, "elevator": elevator, "rudder": rudder},
            **{"stalledLeft": gone[0], "stalledRight": gone[1], "turns": seen.turns[0]},
            **{"throttle": state[16], "airspeed": seen.airspeed[0], "low": seen.lowest[0]},
            **{"margin": seen.stall_margin[0], "load": seen.load_factor[0]},
            **{"pack": seen.pack_left[0], "windAhead": over_grass[0], "windLeft": -over_grass[1]},
        }
        return np.array([values[name] for name in FIELDS], dtype=np.float32)

    def _over_ground(self) -> list[float]:
        return (rotation_of(self.state)[0] @ self.state[0, 7:10]).tolist()

    def _note(self, notes: list[Note]) -> None:
        for note in notes:
            x, y, z = note.at
            self._pins.append(Pin(note.time, (x, -y, -z), note.words))

    def pins(self) -> list[Pin]:
        """What has been noted since it was asked last."""
        found, self._pins = self._pins, []
        return found

    def over(self) -> str:
        """How the flight ended; "" while it goes on."""
        return self._watch.over(self.time, self.state, self._gauges)
