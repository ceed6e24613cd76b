"""What is worth noting on a flight while it goes on: where the stall began, the lowest point."""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from foamwright.core.unit_table import FOOT
from foamwright.core.units import format_value
from foamwright.flight.gauges import Gauges
from foamwright.flight.launch import FLYING
from foamwright.flight.simulation.craft import Craft
from foamwright.flight.simulation.state import attitude_of, rotation_of

type Array = NDArray[np.float64]
type Place = tuple[float, float, float]

AGAIN = 1.0  # s a thing must have been over before it is noted again
TIP, ROOT = 0.7, 0.35  # of the half span
STEEP = math.radians(60.0)  # bank at which a level turn takes twice the lift
UPRIGHT = math.radians(45.0)  # pitch up to which a bank makes a turn
FAR = 150.0  # m, where a plane of a metre is hard to read; common practice, no source
CLIMBED = 0.3  # m above its lowest point: the throw has gone well
SANK = 0.15  # m below the hand: worth a note
SHORT = 0.03  # of flying speed: worth a note
HARD = 2.5  # m/s of sinking at the touch that foam does not take; common practice, no source
AT_REST = 0.6  # m/s over the grass
SLIDES = 4.0  # s on the grass, then the flight is over in any case
FASTEST = 90.0  # m/s, beyond any plane of foam
GENTLE = ("belly", "nose", "tail")  # points that a landing may touch with first


@dataclass(frozen=True, slots=True)
class Note:
    """Something worth noting.

    Attributes:
        time: Since the release. [s]
        at: Ground axes. [m]
        kind: "deficit", "lowest", "stall", "bank", "load", "far".
        words: For the pilot, in the units of the design.
    """

    time: float
    at: Place
    kind: str
    words: str


@dataclass(slots=True)
class Watch:
    """Keeps an eye on one flight.

    Attributes:
        craft: The plane.
        units: "metric" or "inch".
        holds: Load factor that the plane holds; None: cannot say. [-]
        from_hand: Whether it was thrown.
    """

    craft: Craft
    units: str
    holds: float | None
    from_hand: bool = True
    _since: dict[str, float] = field(default_factory=dict[str, float])
    _low: Note | None = None
    _hand: float = 0.0
    _rising: bool = False
    _touched: tuple[float, str] | None = None

    def start(self, airspeed: float, at: Place) -> list[Note]:
        """What is plain at the release.

        Args:
            airspeed: [m/s]
            at: Ground axes. [m]

        Returns:
            At most one note.
        """
        self._since.clear()
        self._low, self._rising, self._touched = None, not self.from_hand, None
        self._hand = at[2]
        flying = FLYING * self.craft.stall_speed
        if not self.from_hand or airspeed >= (1.0 - SHORT) * flying:
            return []
        words = (
            f"Left the hand at {self._speed(airspeed)}, {self._speed(flying - airspeed)} below "
            f"flying speed: it sinks until it has gained that."
        )
        return [Note(0.0, at, "deficit", words)]

    def see(self, time: float, state: Array, gauges: Gauges) -> list[Note]:
        """What is new at a moment.

        Args:
            time: Since the release. [s]
            state: One row. [SI]
            gauges: Of the same state. [-]

        Returns:
            Notes, mostly none.
        """
        x, y, z = state[0, :3].tolist()
        at = (x, y, z)
        found = [*self._throw(time, at, float(gauges.lowest[0])), *self._stall(time, at, gauges)]
        angles = attitude_of(state)
        bank, pitch = abs(float(angles.bank[0])), abs(float(angles.pitch[0]))
        # Over the top of a loop the bank is 180 degrees, and no turn.
        if self._new("bank", time, on=STEEP < bank < math.pi - STEEP and pitch < UPRIGHT):
            words = "Banked past 60°: a level turn now takes more than twice the lift."
            found.append(Note(time, at, "bank", words))
        load = float(gauges.load_factor[0])
        if self.holds is not None and self._new("load", time, on=load > self.holds):
            words = f"The wing carries {load:.1f} g; it is built for {self.holds:.1f} g."
            found.append(Note(time, at, "load", words))
        if self._new("far", time, on=math.hypot(x, y, z) > FAR):
            words = f"About {self._far(FAR)} away: hard to see which way it banks."
            found.append(Note(time, at, "far", words))
        return found

    def over(self, time: float, state: Array, gauges: Gauges) -> str:
        """How the flight ended.

        Args:
            time: Since the release. [s]
            state: One row. [SI]
            gauges: Of the same state. [-]

        Returns:
            Words; "" while it goes on.
        """
        velocity = (rotation_of(state) @ state[:, 7:10, None])[0, :, 0]
        if not np.isfinite(state).all() or float(np.abs(velocity).max()) > FASTEST:
            return "The reckoning ran away: the flight cannot be said any further."
        if float(gauges.lowest[0]) > 0.0 and self._touched is None:
            return ""
        speed = float(np.hypot(velocity[0], velocity[1]))
        if self._touched is None:
            name, sinking = self._first(state), float(velocity[2])
            words = (
                f"with the {name} first, at {self._speed(speed)}, sinking {self._speed(sinking)}"
            )
            if sinking > HARD or name not in GENTLE:
                return f"Struck the ground {words}."
            self._touched = (time, f"Touched down {words}.")
        if speed < AT_REST or time - self._touched[0] > SLIDES:
            return self._touched[1]
        return ""

    def _first(self, state: Array) -> str:
        touch = self.craft.touch
        down = touch.points @ rotation_of(state)[0, 2]
        return touch.names[int(down.argmax())]

    def _throw(self, time: float, at: Place, lowest: float) -> list[Note]:
        """The lowest point after the release, once it has climbed away from it."""
        if self._rising:
            return []
        if self._low is None or at[2] > self._low.at[2]:
            words = f"Lowest point of the throw: {self._length(max(lowest, 0.0))} above the grass."
            self._low = Note(time, at, "lowest", words)
            return []
        if self._low.at[2] - at[2] < CLIMBED:
            return []
        self._rising = True
        return [self._low] if self._low.at[2] > self._hand + SANK else []

    def _stall(self, time: float, at: Place, gauges: Gauges) -> list[Note]:
        strips = self.craft.strips
        gone = gauges.separated[0] & (strips.surface == 0)
        left, right = gone & (strips.side < 0), gone & (strips.side > 0)
        both = bool(left.any()) and bool(right.any())
        if not self._new("stall", time, on=bool(gone.any())):
            return []
        place = float(strips.place[gone].mean())
        where = "tip" if place > TIP else "root" if place < ROOT else "middle"
        side = (
            "on both wings, at the"
            if both
            else f"at the {'left' if left.any() else 'right'} wing's"
        )
        words = (
            f"The stall began {side} {where}, at {self._speed(float(gauges.airspeed[0]))} and "
            f"{round(float(gauges.load_factor[0]), 1) + 0.0:.1f} g."
        )
        return [Note(time, at, "stall", words)]

    def _new(self, kind: str, time: float, *, on: bool) -> bool:
        """Whether something has begun that was not there for a while."""
        last = self._since.get(kind, -math.inf)
        if on:
            self._since[kind] = time
        return on and time - last > AGAIN

    def _speed(self, value: float) -> str:
        return format_value(value, "speed", self.units)

    def _far(self, value: float) -> str:
        return f"{50 * round(value / FOOT / 50)} ft" if self.units == "inch" else f"{value:.0f} m"

    def _length(self, value: float) -> str:
        if self.units == "inch":
            return f"{value / FOOT:.1f} ft" if value < 3.0 else f"{value / FOOT:.0f} ft"
        return f"{value:.1f} m" if value < 10.0 else f"{value:.0f} m"
