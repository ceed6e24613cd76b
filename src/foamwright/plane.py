"""`Plane`: the one object a caller holds. It strings the rooms together and holds no formula."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from foamwright.aero.analyse import analyse as analyse_aero
from foamwright.aero.lattice import LatticeSolution, solve_lattice
from foamwright.aero.learned import with_drag_factor
from foamwright.aero.sections import SectionPolars, section_polars
from foamwright.aero.span import wing_lift_shape
from foamwright.balance.learned import with_weighed
from foamwright.balance.mass import balance_of, mass_of
from foamwright.core.air import Air, air_at
from foamwright.design.change import Value, change_design
from foamwright.flight.analyse import analyse as analyse_flight
from foamwright.parts.build import build_parts, tray_range
from foamwright.parts.cutting import cutting_needs
from foamwright.power.analyse import analyse as analyse_power
from foamwright.power.learned import with_flown
from foamwright.power.train import build_train
from foamwright.shape.airframe import build_airframe
from foamwright.stock.home_tests import tested_stock
from foamwright.stock.load import board_of
from foamwright.strength.analyse import analyse as analyse_strength
from foamwright.strength.loads import shaft_torque
from foamwright.strength.model import LoadCase

if TYPE_CHECKING:
    from foamwright.aero.model import AeroResult
    from foamwright.balance.model import Balance
    from foamwright.core.verdicts import Check
    from foamwright.design.model import Design
    from foamwright.flight.model import FlightResult
    from foamwright.flight.simulation.build_craft import Rooms
    from foamwright.flight.simulation.craft import Craft
    from foamwright.flight.simulation.flaws import Flaws
    from foamwright.parts.cutting import CuttingNeeds
    from foamwright.parts.model import PartsList
    from foamwright.power.model import PowerResult, PowerTrain
    from foamwright.shape.model import Airframe
    from foamwright.stock.model import Stock
    from foamwright.strength.model import StrengthResult

HOT_DAY = 323.15  # K, a dark wing or a parked car in summer sun; assumed, 50 °C
SURFACE_GUST = 4.0  # m/s, surface gust for load checks; common practice, no source


@dataclass(frozen=True, slots=True)
class Above:
    """The rooms that stand above the plane, handed in by whoever opens it.

    Attributes:
        checks: Plane -> its checks.
        layout: Plane -> a quick layout of its parts on the boards (a sheets.model.Layout).
        drawing: (Plane, path or None) -> path or figure of the three-view.
        results: Plane -> plain nested dict in SI, as `check --json` prints under "results".
    """

    checks: Callable[[Plane], tuple[Check, ...]]
    layout: Callable[[Plane], Any]
    drawing: Callable[[Plane, Path | None], Any]
    results: Callable[[Plane], dict[str, Any]]


# What each result depends on, tables of the design or the air: a changed plane takes over what
# stays the same.
_SURFACES = ("board", "wing", "tail", "stab", "fin", "fuselage")
_SHAPE = (*_SURFACES, "motor", "propeller", "gear")
_POWER = ("motor", "propeller", "controller", "pack", "supply_cutoff", "learned", "air")
_PARTS = (*_SHAPE, "controller", "pack", "receiver", "servo", "extra", "covering", "glue", "units")
_FLOWN = (*_PARTS, "supply_cutoff", "learned", "pilot", "air")
_DEPENDS = {
    "airframe": _SHAPE,
    "lattice": _SURFACES,
    "polars": (*_SURFACES, "air"),
    "parts": _PARTS,
    "cutting": _PARTS,
    "layout": _PARTS,
    "power": _POWER,
    "balance": (*_PARTS, "learned"),
    "aero": (*_PARTS, "learned", "air"),
    "flight": _FLOWN,
    "loads": _FLOWN,
    "strength": _FLOWN,
}


class Plane:
    """One plane: a design, the stock it draws on, and every result as a lazy cached property.

    Attributes:
        design: The design, SI.
        path: The design file; None when made in memory.
        learnt: Power train as from labels, and the same after bench readings; None without any.
    """

    def __init__(
        self,
        design: Design,
        stock: Stock,
        above: Above,
        *,
        path: Path | None = None,
        learnt: tuple[PowerTrain, PowerTrain] | None = None,
    ) -> None:
        self.design = design
        self._given_stock = stock
        self.path = path
        self.learnt = learnt
        self._above = above

    def with_values(self, values: Mapping[str, Value]) -> Plane:
        """The same plane with some design values changed.

        Args:
            values: Dotted design key -> new value in SI, such as {"stab.span": 0.36}. [any]

        Returns:
            A new plane; results whose inputs did not change are taken over.

        Raises:
            DesignErrors: The changed design is not possible.

        Source:
            Definition.

        Example:
            >>> [round(x, 4) for x in plane.with_values({"pack.position": 0.11}).balance.cg]
            [0.2144, 0.0036, 0.021]
        """
        design = change_design(self.design, values)
        changed = Plane(design, self._given_stock, self._above, learnt=self.learnt)
        other = {table for table in _FLOWN if not self._same(changed, table)}
        for name, tables in _DEPENDS.items():
            if name in self.__dict__ and other.isdisjoint(tables):
                changed.__dict__[name] = self.__dict__[name]
        return changed

    def with_results(self, kept: Iterable[str] = (), **results: object) -> Plane:
        """The same plane with some results put in place of its own.

        Args:
            kept: Names of results to take over; what is neither kept nor given is new. [-]
            results: Name -> result in place of the plane's own. [any]

        Returns:
            A new plane of the same design.

        Source:
            Definition.

        Example:
            >>> from dataclasses import replace
            >>> heavier = replace(plane.balance, all_up_mass=0.9)
            >>> other = plane.with_results(("airframe", "parts"), balance=heavier)
            >>> other.aero.stall_speed > plane.aero.stall_speed
            True
        """
        changed = Plane(self.design, self._given_stock, self._above, learnt=self.learnt)
        changed.__dict__.update({name: getattr(self, name) for name in kept})
        changed.__dict__.update(results)
        return changed

    def _same(self, other: Plane, table: str) -> bool:
        if table == "air":
            return self.air == other.air
        return getattr(self.design, table) == getattr(other.design, table)

    @cached_property
    def stock(self) -> Stock:
        """Stock tables with what was measured at home in place of their bands."""
        return tested_stock(self.design.board, self.design.glue, self._given_stock)

    @cached_property
    def air(self) -> Air:
        """Air at the field."""
        return air_at(self.design.field.altitude, self.design.field.temperature)

    @cached_property
    def airframe(self) -> Airframe:
        """The shape as the air sees it."""
        board = board_of(self.design.board, self.stock)
        return build_airframe(self.design, board.thickness.typical)

    @cached_property
    def parts(self) -> PartsList:
        """Every piece to cut or buy."""
        return build_parts(self.design, self.airframe, self.stock)

    @cached_property
    def cutting(self) -> CuttingNeeds:
        """What blade, ruler and slots the parts ask for."""
        return cutting_needs(self.parts.parts)

    @cached_property
    def balance(self) -> Balance:
        """Mass, CG, inertia, pack range."""
        found = balance_of(self.parts, tray=tray_range(self.design, self.airframe))
        learned = self.design.learned
        return with_weighed(found, learned.mass, cg_shift=learned.cg)

    @cached_property
    def lattice(self) -> LatticeSolution:
        """Inviscid whole-plane solution; depends on the shape only."""
        return solve_lattice(self.airframe)

    @cached_property
    def polars(self) -> SectionPolars:
        """Section tables of every surface at the field's air."""
        return section_polars(self.airframe, self.air)

    @cached_property
    def aero(self) -> AeroResult:
        """Lift, drag, trim, stability about the CG."""
        found = analyse_aero(
            self.airframe,
            self.lattice,
            self.polars,
            air=self.air,
            mass=self.balance.all_up_mass,
            cg=self.balance.cg,
        )
        return with_drag_factor(found, self.design.learned.drag)

    @cached_property
    def train(self) -> PowerTrain:
        """Motor, propeller, controller, pack as constants, bench readings taken in."""
        label = build_train(self.design, self.stock)
        if self.learnt is None:
            bench = label
        else:
            from foamwright.power.bench import carried_over

            bench = carried_over(label, self.learnt)
        learned = self.design.learned
        return with_flown(bench, thrust=learned.thrust, current=learned.current)

    @cached_property
    def power(self) -> PowerResult:
        """Static thrust, current, pitch speed."""
        return analyse_power(self.train, density=self.air.density)

    @cached_property
    def flight(self) -> FlightResult:
        """Performance, modes, launch, wind."""
        return analyse_flight(
            self.airframe,
            self.aero,
            self.power,
            self.balance,
            air=self.air,
            throw_speed=self.design.pilot.throw_speed,
            throw_height=self.design.pilot.throw_height,
        )

    @property
    def rooms(self) -> Rooms:
        """What the simulation of flight is made of."""
        from foamwright.flight.simulation.build_craft import Rooms

        return Rooms(
            self.airframe,
            self.lattice,
            self.polars,
            self.aero,
            self.power,
            self.balance,
            self.air,
            self.design.name,
        )

    @cached_property
    def craft(self) -> Craft:
        """The plane as the equations of motion need it, without flaws."""
        from foamwright.flight.simulation.build_craft import build_craft

        return build_craft(self.rooms)

    def flawed(self, flaws: Flaws) -> Craft:
        """The same with flaws of one build, or of n builds side by side.

        Args:
            flaws: Departures from the design. [-]

        Returns:
            The craft, one row a build.

        Source:
            foamwright.flight.simulation.

        Example:
            >>> from foamwright.flight.simulation.flaws import Flaws
            >>> plane.flawed(Flaws(cg_shift_aft=0.01)).count
            1
        """
        from foamwright.flight.simulation.build_craft import with_flaws

        return with_flaws(self.craft, self.rooms, flaws)

    @cached_property
    def loads(self) -> LoadCase:
        """Numbers of the other rooms that the strength of the plane rests on."""
        aero, performance, power = self.aero, self.flight.performance, self.power
        motor, propeller, pack = self.train.motor, self.train.propeller, self.train.pack
        places, shape = wing_lift_shape(self.lattice, aero.lift_max_untrimmed)
        return LoadCase(
            mass=self.balance.all_up_mass,
            wing_mass=mass_of(self.parts, "wing"),
            lift_slope=aero.lift_slope,
            lift_max=aero.lift_max,
            stall_speed=aero.stall_speed,
            top_speed=max(performance.top_speed, 2.5 * aero.stall_speed),
            density=self.air.density,
            gust=SURFACE_GUST,
            static_thrust=power.static_thrust,
            motor_mass=motor.mass.typical + propeller.mass.typical,
            hinge_moments=aero.hinge_moments,
            temperature=HOT_DAY,
            lift_places=places,
            lift_shape=shape,
            propeller_mass=propeller.mass.typical,
            propeller_diameter=propeller.diameter,
            shaft_speed=power.static_speed,
            shaft_torque=shaft_torque(
                power.full_throttle_current, motor.no_load_current.typical, kv=motor.kv.typical
            ),
            throw_speed=self.flight.launch.throw_speed,
            pack_mass=pack.mass.typical,
        )

    @cached_property
    def strength(self) -> StrengthResult:
        """What breaks first, at how many g."""
        return analyse_strength(
            self.design, self.airframe, self.stock, self.parts, loads=self.loads
        )

    @cached_property
    def checks(self) -> tuple[Check, ...]:
        """Every check with verdict, margin, reason and solved changes."""
        return self._above.checks(self)

    @cached_property
    def layout(self) -> Any:  # noqa: ANN401 - a type of a room above this floor
        """A quick layout of the board parts on the boards."""
        return self._above.layout(self)

    def results(self) -> dict[str, Any]:
        """All main results as a plain nested dict in SI.

        Returns:
            Keys balance, aero, power, flight, strength, sheets; see docs/use.

        Source:
            Definition.

        Example:
            >>> 5.3 < plane.results()["aero"]["stall_speed"] < 8.2
            True
        """
        return self._above.results(self)

    def show(self, path: str | Path | None = None) -> Any:  # noqa: ANN401 - matplotlib stays above
        """Three-view drawing.

        Args:
            path: File to write (.svg, .png or .pdf); None returns a matplotlib figure. [-]

        Returns:
            The path written, or the figure.

        Source:
            Definition.

        Example:
            >>> plane.show("cob.svg").name
            'cob.svg'
        """
        return self._above.drawing(self, Path(path) if path is not None else None)
