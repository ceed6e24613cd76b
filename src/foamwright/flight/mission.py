"""A flight in legs: what each takes from the pack, how long it lasts, what goes back in after."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from foamwright.aero.model import AeroResult
from foamwright.core.air import GRAVITY
from foamwright.core.errors import ModelError
from foamwright.flight.curves import Array, level_drag
from foamwright.power.model import PowerTrain
from foamwright.power.operate import power_map, throttle_for_thrust
from foamwright.power.pack import rest_voltage
from foamwright.power.stick import stick_of

CRUISE = 1.4  # of stall speed; common practice, no source
APPROACH = 1.3  # of stall speed; common practice, no source
LANDING_SINK = 1.0  # m/s on approach; common practice, no source
RADIO_CURRENT = 0.25  # A, receiver and a few small servos at work; common practice, no source
CLIMB_TIME = 30.0  # s at full throttle
LANDING_TIME = 60.0  # s, a circuit and the approach; common practice, no source
RESERVE = 0.2  # of the capacity stays in the pack; common practice, no source
FIRST_RESERVE = 0.4  # on a first flight, for a second try at landing; common practice, no source
FIRST_FACTOR = 1.3  # trimming and turns take more than level flight; assumed
CHARGE_EFFICIENCY = 0.98  # charge given back over charge put in; lithium cells, from memory
CRUISE_STEPS = 5  # parts that a cruise is cut into, as the voltage sinks


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg of a flight.

    Attributes:
        name: "climb", "cruise" or "land", or a name of one's own.
        kind: "full" throttle, "level" or "descend".
        duration: [s]; None: as long as the reserve allows.
        speed: [m/s]; None: best climb, 1.4 or 1.3 times stall speed by kind.
    """

    name: str
    kind: Literal["full", "level", "descend"]
    duration: float | None
    speed: float | None = None


USUAL = (
    Leg("climb", "full", CLIMB_TIME),
    Leg("cruise", "level", None),
    Leg("land", "descend", LANDING_TIME),
)


@dataclass(frozen=True, slots=True)
class FlownLeg:
    """What one leg takes.

    Attributes:
        name: Of the leg.
        duration: [s]
        speed: [m/s]
        stick: Throttle stick. [-]
        current: From the pack, radio in. [A]
        charge: Drawn. [A s]
        height: Gained. [m]
    """

    name: str
    duration: float
    speed: float
    stick: float
    current: float
    charge: float
    height: float


@dataclass(frozen=True, slots=True)
class Mission:
    """A whole flight.

    Attributes:
        legs: As flown.
        duration: Of all legs. [s]
        charge: Drawn. [A s]
        charge_back: What the charger puts back. [A s]
        left: Share of the capacity left at the end. [-]
        rest_cell_voltage: Of a rested cell at the end. [V]
        cut_share: Share drawn at which full throttle meets the cutoff; None when it does not before
            the reserve. [-]
        first_timer: Timer for a first flight. [s]
        first_stick: Stick to hold in level flight at first. [-]
        notes: In words.
    """

    legs: tuple[FlownLeg, ...]
    duration: float
    charge: float
    charge_back: float
    left: float
    rest_cell_voltage: float
    cut_share: float | None
    first_timer: float
    first_stick: float
    notes: tuple[str, ...]


def fly_mission(
    aero: AeroResult,
    train: PowerTrain,
    mass: float,
    *,
    density: float,
    climb_speed: float | None = None,
    legs: Sequence[Leg] = USUAL,
    reserve: float = RESERVE,
) -> Mission:
    """Fly legs one after another until the pack holds its reserve.

    The leg without a duration takes what the others leave; it is cut into five, each at the voltage
    that the pack then has.

    Args:
        aero: The plane's aerodynamics. [-]
        train: The power train. [-]
        mass: All-up. [kg]
        density: Air. [kg/m³]
        climb_speed: Of the climb; None takes the best one. [m/s]
        legs: At most one without a duration. [-]
        reserve: Share of the capacity that stays. [-]

    Returns:
        The flight.

    Valid:
        Still air; a healthy pack, its printed capacity believed.

    Raises:
        ModelError: Level flight is not possible, legs that empty the pack, or two open legs.

    Source:
        Force balance and charge; shares common practice, no source.

    Example:
        >>> 33 < fly_mission(aero, train, 0.6, density=1.2).duration / 60 < 51
        True
    """
    if not 0.0 <= reserve < 1.0:
        raise ModelError(f"Reserve is {reserve:g} of the pack; it must be 0 up to below 1.")
    if sum(leg.duration is None for leg in legs) > 1:
        raise ModelError("Only one leg may be without a duration.")
    if any(leg.duration is not None and leg.duration < 0.0 for leg in legs):
        raise ModelError("A leg cannot last less than no time.")
    plane = _Plane(
        aero, train, mass, density, climb_speed or _best_climb(aero, train, mass, density)
    )
    fixed = _fixed_charge(plane, legs, reserve)
    usable = (1.0 - reserve) * train.pack.capacity
    if fixed > usable:
        raise ModelError(
            f"The legs with a duration take {fixed / 3.6:.0f} mAh; the pack gives "
            f"{usable / 3.6:.0f} mAh above its reserve. Shorten them, or take a bigger pack."
        )
    flown: list[FlownLeg] = []
    drawn = 0.0
    for leg in legs:
        done = plane.fly(leg, drawn, to_draw=usable - fixed)
        drawn += done.charge
        flown.append(done)
    share = min(drawn / train.pack.capacity, 1.0)
    timer, stick = _first_flight(plane)
    cut = cutoff_share(train, density=density)
    notes = []
    if cut is not None and cut < share:
        notes.append(
            f"Full throttle meets the cutoff of {train.pack.cutoff:.1f} V a cell when "
            f"{100 * cut:.0f} % is drawn: climb early, land with what is left."
        )
    return Mission(
        legs=tuple(flown),
        duration=sum(leg.duration for leg in flown),
        charge=drawn,
        charge_back=drawn / CHARGE_EFFICIENCY,
        left=1.0 - share,
        rest_cell_voltage=float(rest_voltage(share)),
        cut_share=cut,
        first_timer=timer,
        first_stick=stick,
        notes=tuple(notes),
    )


def _fixed_charge(plane: "_Plane", legs: Sequence[Leg], reserve: float) -> float:
    """Charge of the legs that have a duration: on a full pack before the open leg, low after it."""
    charge, depth = 0.0, 0.0
    for leg in legs:
        if leg.duration is None:
            depth = max(0.95 - reserve, 0.0)
        else:
            charge += plane.current_of(leg, depth)[0] * leg.duration
    return charge


@dataclass(frozen=True, slots=True)
class _Plane:
    aero: AeroResult
    train: PowerTrain
    mass: float
    density: float
    climb_speed: float

    def speed_of(self, leg: Leg) -> float:
        usual = {
            "full": self.climb_speed,
            "level": CRUISE * self.aero.stall_speed,
            "descend": APPROACH * self.aero.stall_speed,
        }
        return usual[leg.kind] if leg.speed is None else leg.speed

    def current_of(self, leg: Leg, depth: float) -> tuple[float, float, float]:
        """Current with the radio, stick and climb rate."""
        speed = self.speed_of(leg)
        drag = float(
            level_drag(self.aero, self.mass, speed=np.array([speed]), density=self.density)[0]
        )
        weight = self.mass * GRAVITY
        duty = 1.0
        if leg.kind != "full":
            sink = LANDING_SINK if leg.kind == "descend" else 0.0
            thrust = max(drag - weight * sink / speed, 0.0)
            duty = self._duty(speed, thrust, depth)
        grid = power_map(
            self.train,
            np.array([speed]),
            np.array([duty]),
            density=self.density,
            depth_of_discharge=depth,
        )
        excess = float(grid.thrust[0, 0]) - drag
        rate = speed * excess / weight if leg.kind == "full" else 0.0
        rate = -LANDING_SINK if leg.kind == "descend" else rate
        return float(grid.current[0, 0]) + RADIO_CURRENT, stick_of(duty), min(rate, speed)

    def _duty(self, speed: float, thrust: float, depth: float) -> float:
        if thrust <= 0.0:
            return 0.0
        duty = float(
            throttle_for_thrust(
                self.train,
                np.array([speed]),
                np.array([thrust]),
                density=self.density,
                depth_of_discharge=depth,
            )[0]
        )
        if duty > 1.0:
            raise ModelError(
                f"Full throttle does not hold level flight at {speed:.1f} m/s when "
                f"{100 * depth:.0f} % of the pack is drawn."
            )
        return duty

    def fly(self, leg: Leg, drawn: float, *, to_draw: float) -> FlownLeg:
        capacity = self.train.pack.capacity
        if leg.duration is not None:
            depth = min(drawn / capacity, 0.95)
            current, stick, rate = self.current_of(leg, depth)
            height = rate * leg.duration
            charge = current * leg.duration
            speed = self.speed_of(leg)
            return FlownLeg(leg.name, leg.duration, speed, stick, current, charge, height)
        times, sticks = [], []
        for step in range(CRUISE_STEPS):
            depth = min((drawn + to_draw * (step + 0.5) / CRUISE_STEPS) / capacity, 0.95)
            current, stick, _ = self.current_of(leg, depth)
            times.append(to_draw / CRUISE_STEPS / current)
            sticks.append(stick)
        total = sum(times)
        return FlownLeg(
            leg.name,
            total,
            self.speed_of(leg),
            sum(sticks) / CRUISE_STEPS,
            to_draw / total if total > 0.0 else 0.0,
            to_draw,
            0.0,
        )


def _best_climb(aero: AeroResult, train: PowerTrain, mass: float, density: float) -> float:
    speeds = aero.stall_speed * np.linspace(1.1, 3.0, 20)
    grid = power_map(train, speeds, np.array([1.0]), density=density)
    drag = level_drag(aero, mass, speed=speeds, density=density)
    return float(speeds[int(np.argmax(speeds * (grid.thrust[:, 0] - drag)))])


def _first_flight(plane: _Plane) -> tuple[float, float]:
    """Timer and stick: two climbs, then level flight with a margin, 40 % left for landing."""
    climb = plane.current_of(USUAL[0], 0.1)[0] * 2.0 * CLIMB_TIME
    current, stick, _ = plane.current_of(USUAL[1], 0.3)
    left = max((1.0 - FIRST_RESERVE) * plane.train.pack.capacity - climb, 0.0)
    return 2.0 * CLIMB_TIME + left / (FIRST_FACTOR * current), stick


def cutoff_share(train: PowerTrain, *, density: float) -> float | None:
    """Share of the capacity at which full throttle at rest pulls a cell below the cutoff.

    Args:
        train: The power train. [-]
        density: Air. [kg/m³]

    Returns:
        Drawn share, 0 when a full pack already sags that far; None when it never does. [-]

    Source:
        Voltage balance; a cell is at its lowest with the plane held still.

    Example:
        >>> cutoff_share(train, density=1.2)  # doctest: +SKIP
        0.93
    """

    def sags(share: float) -> bool:
        grid = power_map(train, np.zeros(1), np.ones(1), density=density, depth_of_discharge=share)
        return float(grid.voltage[0, 0]) < train.pack.cells * train.pack.cutoff

    if sags(0.0):
        return 0.0
    if not sags(1.0):
        return None
    low, high = 0.0, 1.0  # the voltage only falls as charge is drawn
    for _ in range(7):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if sags(middle) else (middle, high)
    return high


def endurance_over_speed(
    aero: AeroResult, train: PowerTrain, mass: float, *, speeds: Array, density: float
) -> tuple[Array, Array]:
    """Time and pack current of level flight at each speed, 80 % of the capacity used.

    Args:
        aero: The plane's aerodynamics. [-]
        train: The power train. [-]
        mass: All-up. [kg]
        speeds: At and above stall speed. [m/s]
        density: Air. [kg/m³]

    Returns:
        Endurance [s] and current [A]; both 0 where level flight is not possible.

    Source:
        Force balance and charge.

    Example:
        >>> endurance_over_speed(aero, train, 0.6, speeds=np.array([9.0]),
        ...     density=1.2)[0] / 60  # doctest: +SKIP
        array([31.])
    """
    drag = level_drag(aero, mass, speed=speeds, density=density)
    depth = 0.5 * (1.0 - RESERVE)
    duty = throttle_for_thrust(train, speeds, drag, density=density, depth_of_discharge=depth)
    held = duty <= 1.0
    current: Array = np.zeros(speeds.shape)
    for i in np.flatnonzero(held):
        grid = power_map(train, speeds[[i]], duty[[i]], density=density, depth_of_discharge=depth)
        current[i] = grid.current[0, 0] + RADIO_CURRENT
    usable = (1.0 - RESERVE) * train.pack.capacity
    return np.where(held, usable / np.where(held, current, 1.0), 0.0), current
