"""How far computed derivatives may be off: one standard deviation of each."""

from foamwright.aero.model import Derivatives

# Relative accuracy of derivatives worked out from a drawing, for small angles and low speed:
# [ROSKAM-DYN] table of prediction accuracy; those not in it are assumed (marked).
PREDICTION = {
    "lift_alpha": 0.05,
    "lift_pitch_rate": 0.20,
    "lift_elevator": 0.20,  # assumed, as the other controls
    "drag_alpha": 0.10,
    "pitch_alpha": 0.10,
    "pitch_pitch_rate": 0.20,
    "pitch_alpha_rate": 0.40,
    "pitch_elevator": 0.20,  # assumed
    "side_beta": 0.20,
    "side_roll_rate": 0.50,
    "side_yaw_rate": 0.30,
    "side_rudder": 0.25,  # assumed
    "roll_beta": 0.20,
    "roll_roll_rate": 0.15,
    "roll_yaw_rate": 0.40,
    "roll_aileron": 0.25,  # assumed
    "roll_rudder": 0.50,  # assumed
    "yaw_beta": 0.15,
    "yaw_roll_rate": 0.90,
    "yaw_yaw_rate": 0.25,
    "yaw_aileron": 0.50,  # assumed
    "yaw_rudder": 0.25,  # assumed
}


def derivative_spread(derivatives: Derivatives, *, margin_spread: float) -> dict[str, float]:
    """One standard deviation of every derivative of a whole plane.

    Args:
        derivatives: Of the plane.
        margin_spread: Of the static margin, in mean chords. [-]

    Returns:
        Derivative name -> absolute deviation. [unit of the derivative]

    Valid:
        Conventional planes and V-tails, power off, attached flow.

    Source:
        [ROSKAM-DYN] table of prediction accuracy (from memory); neutral point as stated.

    Example:
        >>> derivative_spread(derivatives, margin_spread=0.03)["yaw_beta"]  # doctest: +SKIP
        0.01
    """
    spread = {name: share * abs(getattr(derivatives, name)) for name, share in PREDICTION.items()}
    # A tenth of a small moment is too sure: the neutral point itself is known to that.
    by_margin = margin_spread * derivatives.lift_alpha
    spread["pitch_alpha"] = max(spread["pitch_alpha"], by_margin)
    return spread
