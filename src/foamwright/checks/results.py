"""The main results of a plane as plain data in SI."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from foamwright.plane import Plane


def results_of(plane: Plane) -> dict[str, Any]:
    """All main results as a plain nested dict in SI, as `check --json` prints them.

    Args:
        plane: The plane. [-]

    Returns:
        Tables balance, aero, power, flight, strength, sheets; x is metres aft of the nose. [-]

    Source:
        docs/use/checks.md.

    Example:
        >>> sorted(results_of(plane))
        ['aero', 'balance', 'flight', 'power', 'sheets', 'strength']
    """
    return {
        "balance": _balance(plane),
        "aero": _aero(plane),
        "power": _power(plane),
        "flight": _flight(plane),
        "strength": _strength(plane),
        "sheets": _sheets(plane),
    }


def _balance(plane: Plane) -> dict[str, Any]:
    balance, aero = plane.balance, plane.aero
    return {
        "all_up_mass": balance.all_up_mass,
        "mass_low": balance.mass_band.low,
        "mass_high": balance.mass_band.high,
        "airframe_mass": balance.airframe_mass,
        "cg_x": balance.cg[0],
        "cg_z": balance.cg[2],
        "cg_low": aero.cg_forward,
        "cg_high": aero.cg_aft,
        "cg_pack_front": balance.cg_front,
        "cg_pack_back": balance.cg_back,
        "pack_front": balance.pack_front,
        "pack_back": balance.pack_back,
        "inertia": list(balance.inertia),
    }


def _aero(plane: Plane) -> dict[str, Any]:
    aero = plane.aero
    return {
        "wing_area": aero.wing_area,
        "span": aero.span,
        "mean_chord": aero.mean_chord,
        "mean_chord_x": aero.mean_chord_x,
        "neutral_point_x": aero.neutral_point_x,
        "static_margin": aero.static_margin,
        "lift_slope": aero.lift_slope,
        "lift_max": aero.lift_max,
        "stall_speed": aero.stall_speed,
        "drag_zero": aero.drag_zero,
        "max_lift_drag": aero.max_lift_drag,
        "best_glide_speed": aero.best_glide_speed,
        "tail_volume_horizontal": aero.tail_volume_horizontal,
        "tail_volume_vertical": aero.tail_volume_vertical,
        "trim_elevator": aero.trim_elevator,
        "trim_speed": aero.trim_speed,
        "roll_rate": aero.roll_rate,
        "notes": list(aero.notes),
    }


def _power(plane: Plane) -> dict[str, Any]:
    power = plane.power
    return {
        "static_thrust": power.static_thrust,
        "static_thrust_low": power.static_thrust_band.low,
        "static_thrust_high": power.static_thrust_band.high,
        "full_throttle_current": power.full_throttle_current,
        "full_throttle_power": power.full_throttle_power,
        "pitch_speed": power.pitch_speed,
        "notes": list(power.notes),
    }


def _flight(plane: Plane) -> dict[str, Any]:
    flight = plane.flight
    performance, launch = flight.performance, flight.launch
    return {
        "level_speed": performance.level_speed,
        "level_throttle": performance.level_throttle,
        "level_current": performance.level_current,
        "climb_rate": performance.climb_rate,
        "climb_angle": performance.climb_angle,
        "top_speed": performance.top_speed,
        "sink_rate": performance.sink_rate,
        "glide_ratio": performance.glide_ratio,
        "endurance": performance.endurance,
        "thrust_weight": performance.thrust_weight,
        "throw_speed": launch.throw_speed,
        "flying_speed": launch.flying_speed,
        "launch_height_lost": launch.height_lost,
        "wind_limit": flight.wind_limit,
        "kinetic_energy": flight.kinetic_energy,
        "spiral_parameter": flight.spiral_parameter,
        "modes": {
            mode.name: {
                "real": mode.real,
                "imag": mode.imag,
                "damping": mode.damping,
                "period": mode.period,
            }
            for mode in flight.modes
        },
        "notes": list(performance.notes),
    }


def _strength(plane: Plane) -> dict[str, Any]:
    strength = plane.strength
    return {
        "limit_load_factor": strength.limit_load_factor,
        "first_failure": strength.first_failure,
        "needed_load_factor": strength.needed_load_factor,
        "manoeuvre_load_factor": strength.manoeuvre_load_factor,
        "gust_load_factor": strength.gust_load_factor,
        "firewall_margin": strength.firewall_margin,
        "tip_deflection": strength.tip_deflection,
        "divergence_speed": strength.divergence_speed,
        "notes": list(strength.notes),
    }


def _sheets(plane: Plane) -> dict[str, Any]:
    layout = plane.layout
    return {
        "boards_used": layout.boards_used,
        "fill": layout.fill,
        "unplaced": list(layout.unplaced),
    }
