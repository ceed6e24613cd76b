"""How a job goes on a plane that is not built the usual way: a box, a V-tail, a bolted wing."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from foamwright.book.jobs import Job
    from foamwright.design.model import Design

BOX = (
    "Score and fold the sides and the doublers first; glue the formers square to one side, at "
    "their marks.",
    "Glue the other side on, nose and tail end held in line along a straight edge; then bottom and "
    "top.",
    "Weights over the whole length until it has set, the box flat on the table.",
)
VEE = (
    "Put the wing on dry. Cut a template of the V angle from scrap and hold it in the corner.",
    "Sight from behind: both halves of the tail stand at the same angle to the wing.",
    "Measure both tail tips to the tip of the nose and to the wing tips: alike. Then glue.",
)
VEE_THROWS = (
    "Set the V-tail mix in the radio; then neutral, directions, throws and expo as the set-up page "
    "says.",
    "Fail-safe: motor off. Throttle cut on a switch. Range check as the radio's book says.",
)
BOLTS = (
    "Glue the bolt plates in; drill through plate and wing together, wing square to the fuselage.",
    "The bolts pass by hand; washers or pads under their heads.",
)
GLUED = ("The wing is glued for good: rough up paper where it sits, fillet all round.",)


def how_for(design: Design, job: Job) -> tuple[str, ...]:
    """Sentences of a job as this plane is built.

    Args:
        design: The design. [-]
        job: The job. [-]

    Returns:
        Sentences, in order. [-]

    Source:
        Common practice, no source.

    Example:
        >>> from foamwright.book.jobs import JOBS
        >>> how_for(design, next(job for job in JOBS if job.id == "seat"))[0][:15]
        'Push the pieces'
    """
    if job.id == "body" and design.fuselage.build == "box":
        return BOX
    if job.id == "set-up":
        first, *others = VEE_THROWS if design.tail.kind == "V" else job.how
        return (first, f"{stick_words(design)}.", *others)
    if design.tail.kind == "V" and job.id == "tail":
        return VEE
    if job.id == "seat":
        kind = design.wing.attachment.kind
        return {"bolts": BOLTS, "glued": GLUED}.get(kind, job.how)
    return job.how


def stick_words(design: Design) -> str:
    """Which way each surface goes when the stick is pulled back and to the right.

    Args:
        design: The design. [-]

    Returns:
        Words. [-]

    Source:
        Common practice, no source.

    Example:
        >>> stick_words(design)
        'Stick right and back: right aileron up, rudder right, elevator up'
    """
    rolls = ["right aileron up"] if design.wing.aileron is not None else []
    if design.tail.kind == "V":
        back = "Stick back: both tail surfaces up. Stick right: "
        return back + ", ".join([*rolls, "both tail surfaces to the right"])
    return "Stick right and back: " + ", ".join([*rolls, "rudder right", "elevator up"])


def title_for(design: Design, job: Job) -> str:
    """Title of a job as this plane is built.

    Args:
        design: The design. [-]
        job: The job. [-]

    Returns:
        Words. [-]

    Source:
        Definition.

    Example:
        >>> from foamwright.book.jobs import JOBS
        >>> title_for(design, JOBS[0])
        'Laminate the spars'
    """
    if design.tail.kind == "V" and job.id == "stab":
        return "Hinge the V-tail"
    return job.title
