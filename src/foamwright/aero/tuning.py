"""Constants of the section model that no publication fixes, fitted to measured polars."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Tuning:
    """Fitted constants. [-] all.

    Attributes:
        critical_exponent: Amplification exponent at transition; quiet tunnel.
        shear_growth: theta dn/ds in the separated laminar shear layer.
        reattachment: Largest theta/U dU/ds that closes a bubble (Horton gives 0.0082).
        mixing: Growth of momentum thickness in the turbulent part of a bubble (Horton: 0.0121).
        bubble_power: Power of the speed ratio by which a bubble's layer thickens (momentum: 2 + H).
        reattached_shape: H where a bubble closes.
        separated_shape: H at which Head's layer is called separated (published: 1.8 to 2.4).
        attached_camber: Share of displacement thickness that acts as loss of camber.
        open_camber: Same for the wake of an open laminar separation.
        separated_camber: Same for a turbulent separation.
        deep_camber: Second-order share of the latter.
        nose_share: Share of the lift loss that leaves the suction at the nose as it is.
        open_turn: Turn of an open laminar shear layer from the surface's tangent to the stream.
        separated_turn: Same for a turbulent one.
        nose_turn: Share of alpha up to which an outward shear layer may point.
        open_drag: Drag per wake height of an open laminar separation.
        open_friction: Factor on the layer's momentum there.
        separated_drag: Drag per wake height of a turbulent separation.
        wake_onset: Wake height below which that drag fades. [chord]
        wake_power: Power of the speed at separation in the wake's momentum (Squire & Young: 3.2).
        separated_reynolds: Power of Re/200 000 by which separated_shape changes.
        reattachment_reynolds: Same for reattachment.
        separated_drag_reynolds: Same for separated_drag.
    """

    critical_exponent: float
    shear_growth: float
    reattachment: float
    mixing: float
    bubble_power: float
    reattached_shape: float
    separated_shape: float
    attached_camber: float
    open_camber: float
    separated_camber: float
    deep_camber: float
    nose_share: float
    open_turn: float
    separated_turn: float
    nose_turn: float
    open_drag: float
    open_friction: float
    separated_drag: float
    wake_onset: float
    wake_power: float
    separated_reynolds: float
    reattachment_reynolds: float
    separated_drag_reynolds: float


# Fitted to Clark-Y at Re 61k to 400k, a thin cambered section at Re 31k to 202k and SD7003 at
# Re 61k to 305k [UIUC-1], [UIUC-3]; with less weight to a few recalled figures of a fourth section
# and, between the measured Reynolds numbers, to a two-equation layer coupled to the outer flow.
TUNING = Tuning(
    critical_exponent=8.9414,
    shear_growth=0.0511,
    reattachment=0.0118,
    mixing=0.0036,
    bubble_power=3.9357,
    reattached_shape=3.0056,
    separated_shape=2.0147,
    attached_camber=0.7216,
    open_camber=1.3819,
    separated_camber=1.1645,
    deep_camber=0.6736,
    nose_share=0.4029,
    open_turn=0.1758,
    separated_turn=0.4842,
    nose_turn=0.3288,
    open_drag=0.4397,
    open_friction=1.0888,
    separated_drag=0.505,
    wake_onset=0.0175,
    wake_power=1.7186,
    separated_reynolds=-0.073,
    reattachment_reynolds=-0.0421,
    separated_drag_reynolds=-0.9471,
)

MIDDLE_REYNOLDS = 2e5  # where the powers of the Reynolds number leave a constant as it is
