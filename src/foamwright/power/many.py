"""Many power trains side by side: one balance solved for all of them at once."""

from collections.abc import Sequence

import numpy as np

from foamwright.power.analyse import varied_circuit
from foamwright.power.circuit import Circuit, circuit_of
from foamwright.power.curves import Array
from foamwright.power.model import PowerMap, PowerTrain
from foamwright.power.operate import map_of


def circuits_of(
    trains: Sequence[PowerTrain], density: float, *, depth_of_discharge: float, varied: bool = False
) -> Circuit:
    """Trains as one circuit whose arrays have a train a row.

    Args:
        trains: One or more.
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]
        varied: Whether each row holds the thirteen variations that a band is made of. [-]

    Returns:
        The circuit; blades that fold are taken as standing, which matters only unpowered.

    Source:
        Definition.

    Example:
        >>> circuits_of([train], 1.2, depth_of_discharge=0.0).kv.shape
        (1, 1)
    """
    rows = [circuit_of(train, density, depth_of_discharge=depth_of_discharge) for train in trains]
    if varied:
        rows = [varied_circuit(train, row) for train, row in zip(trains, rows, strict=True)]

    def stacked(name: str) -> Array:
        return np.array([np.atleast_1d(getattr(row, name)) for row in rows])

    parameters = np.array([np.atleast_2d(row.parameters) for row in rows])
    return Circuit(
        parameters=parameters,
        diameter=stacked("diameter"),
        density=density,
        kv=stacked("kv"),
        resistance=stacked("resistance"),
        no_load_current=stacked("no_load_current"),
        open_voltage=stacked("open_voltage"),
        pack_resistance=stacked("pack_resistance"),
        still_drag_area=stacked("still_drag_area"),
        folds=False,
        controller_loss=stacked("controller_loss"),
    )


def static_of_many(trains: Sequence[PowerTrain], density: float) -> PowerMap:
    """Full throttle at rest on a rested full pack, with the variations for bands.

    Args:
        trains: One or more.
        density: Air density. [kg/m³]

    Returns:
        Arrays of a train a row, thirteen variations along it, the typical one first.

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> static_of_many([train], 1.2).thrust.shape
        (1, 13)
    """
    circuit = circuits_of(trains, density, depth_of_discharge=0.0, varied=True)
    still = np.zeros(circuit.kv.shape)
    return map_of(circuit, still, np.ones_like(still), trusted=True)


def full_throttle_of_many(
    trains: Sequence[PowerTrain], airspeeds: Array, *, density: float, depth_of_discharge: float
) -> PowerMap:
    """Full throttle over airspeed.

    Args:
        trains: One or more.
        airspeeds: The same for all, or a row for each train. [m/s]
        density: Air density. [kg/m³]
        depth_of_discharge: Drawn charge over capacity. [-]

    Returns:
        Arrays of a train a row, airspeeds along it.

    Source:
        [DRELA-MOTOR], [UIUC-PROP].

    Example:
        >>> full_throttle_of_many([train], np.linspace(0, 20, 9), density=1.2,
        ...     depth_of_discharge=0.4).thrust.shape
        (1, 9)
    """
    circuit = circuits_of(trains, density, depth_of_discharge=depth_of_discharge)
    speeds = np.broadcast_to(airspeeds, (len(trains), np.asarray(airspeeds).shape[-1]))
    return map_of(circuit, speeds, np.ones(speeds.shape), trusted=True)
