"""Levers on spar, joints, firewall and tail stiffness."""

from __future__ import annotations

from typing import TYPE_CHECKING

from foamwright.checks.levers import (
    INCH,
    Lever,
    Step,
    choice_lever,
    count_lever,
    grid,
    length_lever,
    listed,
    share_lever,
    together,
)
from foamwright.checks.say import say
from foamwright.checks.shape_levers import wing_span_lever
from foamwright.core.words import in_units
from foamwright.strength.lightest import lightest_cures

SPARE = 1.08  # over what is needed: a change is solved for a margin of 7 %

if TYPE_CHECKING:
    from foamwright.checks.judge import Finding
    from foamwright.plane import Plane


def spar_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """What makes the wing hold more.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers, those that cost least mass first.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in spar_levers(plane, finding)][0]
        'reinforcement'
    """
    del finding
    wing = plane.design.wing
    runs = [
        count_lever(
            plane, f"wing.reinforcement.{index}.count", f"runs of {run.stock or run.kind}", to=4
        )
        for index, run in enumerate(wing.reinforcement)
    ]
    return listed(
        _added_run_lever(plane),
        share_lever(plane, "wing.spar.extent", "spar length, of the half span,", to=1.0),
        *runs,
        count_lever(plane, "wing.spar.strips", "spar strips", to=4),
        length_lever(plane, "wing.spar.strip_width", "spar strips", to=3.0 * INCH),
        wing_span_lever(plane, longer=False),
    )


def _added_run_lever(plane: Plane) -> Lever | None:
    """The lightest stick, rod, tape or spar strip that cures the wing, computed for this wing.

    Args:
        plane: The plane. [-]

    Returns:
        The lever; None when nothing in stock is enough on its own.

    Source:
        foamwright.strength.lightest.

    Example:
        >>> _added_run_lever(plane).name
        'reinforcement'
    """
    cures = lightest_cures(
        plane.design,
        plane.airframe,
        plane.stock,
        loads=plane.loads,
        needed=SPARE * plane.strength.needed_load_factor,
    )
    steps = [
        Step(dict(cure.values), f"lightest cure: {in_units(cure.words, plane.design.units)}")
        for cure in cures
    ]
    return together("reinforcement", steps)


def joint_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """What makes the centre joint hold more.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers, those that cost least mass first.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in joint_levers(plane, finding)][0]
        'joint brace'
    """
    del finding
    joint = plane.design.wing.joint
    tapes = [] if joint.tape is not None else ["fibre mesh tape"]
    plies = sorted(plane.stock.plies.values(), key=lambda ply: ply.thickness.typical)
    had = plane.stock.plies.get(joint.brace or "")
    thicker = [p.name for p in plies if had is None or p.thickness.typical > had.thickness.typical]
    return listed(
        choice_lever(plane, "wing.joint.tape", "tape over the bottom seam:", options=tapes),
        length_lever(plane, "wing.joint.brace_length", "joint brace", to=0.45),
        choice_lever(plane, "wing.joint.brace", "joint brace of", options=thicker),
        wing_span_lever(plane, longer=False),
    )


def attachment_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """More bands or bolts.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers, those that cost least mass first.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in attachment_levers(plane, finding)][0]
        'rubber bands'
    """
    del finding
    attachment = plane.design.wing.attachment
    if attachment.kind == "bolts":
        return listed(count_lever(plane, "wing.attachment.bolts", "wing bolts", to=8))
    had = attachment.bands
    steps = [
        Step({"wing.attachment.bands": count}, f"{count} rubber bands instead of {had}")
        for count in range(had + 2 - had % 2, 31, 2)
    ]
    return listed(together("rubber bands", steps))


def firewall_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """Thicker ply, more pins, a larger plate.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers, those that cost least mass first.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in firewall_levers(plane, finding)][0]
        'firewall of'
    """
    del finding
    firewall = plane.design.motor.firewall
    had = plane.stock.plies.get(firewall.stock)
    thicker = sorted(
        (
            ply
            for ply in plane.stock.plies.values()
            if had is None or ply.thickness.typical > had.thickness.typical
        ),
        key=lambda ply: ply.thickness.typical,
    )
    return listed(
        choice_lever(
            plane, "motor.firewall.stock", "firewall of", options=[ply.name for ply in thicker]
        ),
        count_lever(plane, "motor.firewall.pins", "pins behind the firewall", to=8),
        length_lever(plane, "motor.firewall.height", "firewall height", to=2.0 * firewall.height),
        length_lever(plane, "motor.firewall.width", "firewall width", to=2.0 * firewall.width),
    )


def stiffer_tail(plane: Plane, table: str) -> tuple[Lever, ...]:
    """What stiffens a tail surface.

    Args:
        plane: The plane. [-]
        table: "stab" or "fin". [-]

    Returns:
        Levers: a stick, rod or tube along the span, lightest first; a second layer.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in stiffer_tail(plane, "stab")][0]
        'stab stiffener'
    """
    surface = getattr(plane.design, table)
    rods = [
        rod
        for rod in plane.stock.rods.values()
        if rod.kind != "wire" and rod.height <= 1.3 * plane.airframe.board_thickness
    ]
    present = plane.stock.rods.get(surface.stiffener or "")
    if present is not None:
        floor = present.modulus.typical * present.width * present.height**3
        rods = [rod for rod in rods if rod.modulus.typical * rod.width * rod.height**3 > floor]
    rods.sort(key=lambda rod: rod.modulus.typical * rod.width * rod.height**3)
    return listed(
        choice_lever(
            plane, f"{table}.stiffener", f"{table} stiffener", options=[rod.name for rod in rods]
        ),
        count_lever(plane, f"{table}.layers", f"layers of {table}", to=3),
    )


def twist_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """What stiffens the wing against twist.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers, those that cost least mass first.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in twist_levers(plane, finding)][0]
        'spar at, of the chord,'
    """
    del finding
    position = plane.design.wing.spar.position
    return listed(
        share_lever(plane, "wing.spar.position", "spar at, of the chord,", to=0.2)
        if position > 0.2
        else None,
        count_lever(plane, "wing.spar.strips", "spar strips", to=4),
        length_lever(plane, "wing.spar.strip_width", "spar strips", to=3.0 * INCH),
        wing_span_lever(plane, longer=False),
    )


def tail_strength_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """What keeps tail and rear fuselage from creasing: stiffeners, layers, a taller tail boom.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers.

    Source:
        Common practice, no source.

    Example:
        >>> [lever.name for lever in tail_strength_levers(plane, finding)][0]
        'stab stiffener'
    """
    del finding
    body = plane.design.fuselage
    return listed(
        *stiffer_tail(plane, "stab"),
        *(stiffer_tail(plane, "fin") if plane.design.fin is not None else ()),
        count_lever(plane, "fuselage.layers", "fuselage layers", to=6)
        if body.build == "profile"
        else None,
        length_lever(
            plane, "fuselage.tail_height", "fuselage height at the tail", to=2.0 * body.tail_height
        ),
    )


def pushrod_levers(plane: Plane, finding: Finding) -> tuple[Lever, ...]:
    """Support the pushrods more often, or take thicker wire.

    Args:
        plane: The plane. [-]
        finding: What the check found; the levers do not depend on it. [-]

    Returns:
        Levers.

    Source:
        Common practice, no source: support every 150 to 200 mm.

    Example:
        >>> [lever.name for lever in pushrod_levers(plane, finding)][0]
        'pushrod support'
    """
    del finding
    servos = plane.design.servo
    steps = [
        Step(
            {
                f"servo.{index}.rod_support": min(free, servo.rod_support)
                for index, servo in enumerate(servos)
            },
            f"pushrods held every {say(plane, free, 'length')}",
        )
        for free in grid(max((s.rod_support for s in servos), default=0.15), 0.04, 0.01)
    ]
    wires = sorted(
        (rod for rod in plane.stock.rods.values() if rod.kind == "wire"),
        key=lambda rod: rod.width,
    )
    had = max(
        (plane.stock.rods[s.rod].width for s in servos if s.rod in plane.stock.rods), default=1
    )
    thicker = [
        Step({f"servo.{n}.rod": rod.name for n in range(len(servos))}, f"pushrods of {rod.name}")
        for rod in wires
        if rod.width > had
    ]
    return listed(together("pushrod support", steps), together("pushrod wire", thicker))
