"""A craft made of published derivatives alone: no strips, the same equations of motion."""

from dataclasses import replace

import numpy as np

from foamwright.flight.simulation.craft import (
    Builds,
    Craft,
    Screw,
    StripLoads,
    Touch,
    WholeLoads,
)
from foamwright.flight.simulation.flaws import NO_FLAWS
from foamwright.flight.simulation.lattice_forces import LatticeForces
from foamwright.flight.simulation.propulsion import ThrustGrid

CASES = ("ahead", "down", "right", "roll", "pitch", "yaw", "elevator")


def derivative_craft(
    *,
    mass,
    inertia,
    area,
    span,
    chord,
    density,
    speed,
    lift,
    drag,
    long,
    lat,
    product=0.0,
):
    """Forces rho u A T with A the speed ahead, down, right or a rate: T = S C/2 (c/2 for rates).

    `long` and `lat` hold dimensionless derivatives in stability axes, rates with c/2V and b/2V.
    Thrust equals drag at the trim speed and does not change.
    """
    table = np.zeros((7, 6))  # case -> X, Y, Z, L, M, N over density u
    half = 0.5 * area
    table[0, 2] = -half * lift
    table[1, [2, 4]] = -half * long["CLa"], half * chord * long["Cma"]
    table[4, [2, 4]] = (
        -half * 0.5 * chord * long["CLq"],
        half * chord * 0.5 * chord * long["Cmq"],
    )
    for row, cause, scale in ((2, "b", 1.0), (3, "p", 0.5 * span), (5, "r", 0.5 * span)):
        table[row, [1, 3, 5]] = (
            half * scale * lat.get(f"Cy{cause}", 0.0),
            half * span * scale * lat[f"Cl{cause}"],
            half * span * scale * lat[f"Cn{cause}"],
        )
    cross = np.zeros((6, 7))
    for case, motion in ((1, 2), (2, 1), (3, 3), (4, 4), (5, 5)):
        cross[motion, case] = 1.0
    lattice = LatticeForces(
        cross=cross,
        axial=np.array([1.0, 0, 0, 0, 0, 0, 0]),
        controls=np.zeros((4, 7)),
        turning=-1,
        base=table,
        own=table * np.array([1.0, 0, 0, 0, 0, 0, 0])[:, None],
        rest=np.zeros((7, 30)),
        upright=np.zeros(6),
        yaw=np.zeros((7, 7)),
    )
    # CD = CD0 + k CL², with dCD/dalpha = 2 k CL CLa as published.
    factor = long["CDa"] / (2.0 * lift * long["CLa"])
    none = np.zeros(0)
    strips = StripLoads(
        velocity=np.zeros((6, 0)), gain=none, zero=none, blow=np.zeros((0, 0)), chord=none,
        width=none, row=np.zeros(0, dtype=np.intp), table=np.zeros((1, 6)),
        controls=np.zeros((4, 0)), load=np.zeros((0, 6)), turn=np.zeros((0, 3)), jet=none,
        surface=np.zeros(0, dtype=int), side=np.zeros(0, dtype=int), place=none,
    )  # fmt: skip
    whole = WholeLoads(
        density=density, area=area, span=span, chord=chord, datum=np.zeros(3),
        drag_zero=drag - factor * lift**2, drag_factor=factor, drag_bucket=0.0, lift_max=50.0,
        section_moment=0.0, elevator_moment=0.0, body_pitch=0.0, body_yaw=0.0, body_side=0.0,
        body_cross=(0.0, 0.0), wing_height_roll=0.0, pitch_alpha_rate=long["Cmadot"],
    )  # fmt: skip
    thrust = drag * 0.5 * density * speed**2 * area
    grid = np.zeros((3, 2, 2, 4))
    grid[..., 0] = thrust
    base = np.diag(inertia)
    base[0, 2] = base[2, 0] = -product
    one = np.ones(1)
    builds = Builds(
        mass=mass * one, inertia=base[None], inverse=np.linalg.inv(base)[None],
        reference=np.zeros((1, 3)), axis=np.array([[1.0, 0.0, 0.0]]),
        incidence=np.zeros((1, 0)), neutral=np.zeros((1, 3)), drag_factor=one,
        lift_stretch=one, motor_factor=one, pack_factor=one, slop=0.0 * one, servo_rate=one,
    )  # fmt: skip
    return Craft(
        name="published derivatives",
        lattice=lattice,
        strips=strips,
        whole=whole,
        screw=Screw(
            hub=np.zeros(3),
            radius=1.0,
            pitch=1.0,
            blades=2,
            inertia=0.0,
            disc=1e9,
            immersed=np.zeros(1),
            swirled=0.0,
            torque_kept=0.0,
            swirl=0.0,
        ),
        thrust=ThrustGrid(
            np.array([0.0, 500.0]),
            np.array([0.0, 1.0]),
            np.array([0.0, 0.5, 1.0]),
            grid,
            np.zeros_like(grid),
            1e9,
        ),
        travel=np.zeros(6),
        touch=Touch(np.zeros((1, 3)), ("",), 0.0, 0.0, 0.0),
        builds=builds,
        flaws=NO_FLAWS.spread(),
        stall_speed=0.5 * speed,
        trim_speed=speed,
        elevator_trim=0.0,
    )


def bare(craft):
    """The same craft with no propeller at all."""
    quiet = replace(craft.thrust, table=0.0 * craft.thrust.table, weaker=0.0 * craft.thrust.weaker)
    return replace(craft, thrust=quiet, screw=replace(craft.screw, swirl=0.0))


def airless(craft):
    """The same craft in no air."""
    return replace(bare(craft), whole=replace(craft.whole, density=1e-12))
