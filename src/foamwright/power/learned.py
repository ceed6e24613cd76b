"""Thrust and current as flights showed them, put into the power train."""

from dataclasses import replace

from foamwright.power.model import PowerTrain


def with_flown(train: PowerTrain, *, thrust: float, current: float) -> PowerTrain:
    """The same train with the propeller's thrust and power multiplied.

    Args:
        train: As from labels and bench. [-]
        thrust: Factor on the thrust coefficient. [-]
        current: Factor on the power coefficient, and so on torque and current. [-]

    Returns:
        The train after it.

    Source:
        Definition.

    Example:
        >>> with_flown(train, thrust=1.1, current=1.0).propeller.thrust_scale
        1.1
    """
    if thrust == 1.0 and current == 1.0:
        return train
    propeller = train.propeller
    return replace(
        train,
        propeller=replace(
            propeller,
            thrust_scale=thrust * propeller.thrust_scale,
            power_scale=current * propeller.power_scale,
        ),
    )
