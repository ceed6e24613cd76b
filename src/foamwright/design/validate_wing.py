"""Wings that cannot be: what several keys of [wing] say together."""

from collections.abc import Sequence
from itertools import pairwise

from foamwright.core.errors import DesignError
from foamwright.core.units import format_value
from foamwright.design.model import Design, WingPanel

WIDEST_STRIP = 0.6  # of the chord; wider strips leave no skin to fold over them, common practice
WIDEST_AILERON = 0.6  # of the chord at its outer end; assumed, beyond it there is no wing left
SLACK = 1e-9  # m, so that rounding never makes an end meet its start


def half_span(design: Design) -> float:
    """Length of one wing half along its panels, the measure of ailerons and reinforcements.

    Args:
        design: The design. [-]

    Returns:
        Sum of the panel spans. [m]

    Source:
        Definition.

    Example:
        >>> half_span(design)
        0.5842
    """
    return sum(panel.span for panel in design.wing.panel)


def chord_at(panels: Sequence[WingPanel], distance: float) -> float:
    """Chord of a wing half at a distance from the centre line, measured along its panels.

    Args:
        panels: From the centre outwards; the first has a chord. [-]
        distance: [m]

    Returns:
        The chord; beyond the tip, that at the tip. [m]

    Source:
        Straight taper.

    Example:
        >>> round(chord_at([WingPanel(span=0.5, chord=0.2, tip_chord=0.1)], 0.25), 6)
        0.15
    """
    inner = 0.0
    tip = panels[0].chord or 0.0
    for panel in panels:
        root = panel.chord if panel.chord is not None else tip
        tip = panel.tip_chord if panel.tip_chord is not None else root
        if distance <= inner + panel.span:
            share = max(0.0, distance - inner) / panel.span
            return root + (tip - root) * share
        inner += panel.span
    return tip


def say_length(design: Design, length: float) -> str:
    """A length in the units of the design.

    Args:
        design: The design. [-]
        length: [m]

    Returns:
        Such as "14 1/4 in". [-]

    Source:
        Definition.

    Example:
        >>> say_length(design, 0.05)
        '1 31/32 in'
    """
    return format_value(length, "length", design.units)


def say_percent(fraction: float) -> str:
    """A fraction in percent.

    Args:
        fraction: [-]

    Returns:
        Such as "27 %". [-]

    Source:
        Definition.

    Example:
        >>> say_percent(0.27)
        '27 %'
    """
    return format_value(fraction, "fraction")


def root_chord(design: Design) -> float:
    """Chord of the wing at the centre line.

    Args:
        design: The design. [-]

    Returns:
        The chord; 0 when the first panel lacks it. [m]

    Source:
        Definition.

    Example:
        >>> round(root_chord(design), 3)
        0.197
    """
    return design.wing.panel[0].chord or 0.0


def _panels(design: Design) -> list[DesignError]:
    if design.wing.panel[0].chord is None:
        fix = 'Write chord = "8 in" under the first [[wing.panel]].'
        return [
            DesignError("wing.panel.0.chord", "missing", "the first panel needs its chord", fix)
        ]
    return []


def _spar(design: Design) -> list[DesignError]:
    spar, wing = design.wing.spar, design.wing
    if spar.strips == 0 or wing.panel[0].chord is None:
        return []
    reach = half_span(design) * spar.extent
    chord = min(chord_at(wing.panel, 0.0), chord_at(wing.panel, reach))
    if spar.laid == "flat" and spar.strip_width > WIDEST_STRIP * chord:
        most = say_length(design, WIDEST_STRIP * chord)
        where = f"60 % of the chord it lies in ({say_length(design, chord)})"
        fix = f"Make it {most} or less, or end the spar further in with [wing.spar] extent."
        got = say_length(design, spar.strip_width)
        return [DesignError("wing.spar.strip_width", got, f"it must be at most {where}", fix)]
    half = spar.strip_width / 2 if spar.laid == "flat" else 0.0
    front, back = spar.position * chord - half, spar.position * chord + half
    if front < 0.0 or back > chord:
        edge = "ahead of the leading edge" if front < 0.0 else "behind the trailing edge"
        got = f"{say_percent(spar.position)}, which puts the spar {edge}"
        least, most = say_percent(half / chord), say_percent(1 - half / chord)
        words = (
            f"strips {say_length(design, 2 * half)} wide fit from {least} to {most} of the chord"
        )
        return [
            DesignError("wing.spar.position", got, words, "Move it, or make the strips narrower.")
        ]
    return []


def _span_wise(design: Design) -> list[DesignError]:
    """Reinforcements and ailerons: start before end, end on the wing."""
    half, faults = half_span(design), list[DesignError]()
    reach = half * design.wing.spar.extent
    ends = [
        (f"wing.reinforcement.{index}", piece.start, piece.end)
        for index, piece in enumerate(design.wing.reinforcement)
    ]
    if design.wing.aileron is not None:
        ends.append(("wing.aileron", design.wing.aileron.start, design.wing.aileron.end))
    for key, start, end in ends:
        if end is not None and end > half + 1e-6:
            words = f"the half span is {say_length(design, half)}"
            fix = "Measure it from the centre line, along one half."
            faults.append(DesignError(f"{key}.end", say_length(design, end), words, fix))
        stop = end if end is not None else half if key == "wing.aileron" else reach
        if start >= stop - SLACK:
            words = f"it must be less than where it ends, {say_length(design, stop)}"
            faults.append(
                DesignError(f"{key}.start", say_length(design, start), words, "Swap or mend them.")
            )
    return faults


def _aileron(design: Design) -> list[DesignError]:
    aileron, wing = design.wing.aileron, design.wing
    if aileron is None or aileron.chord is None or wing.panel[0].chord is None:
        return []
    chord = chord_at(wing.panel, half_span(design) if aileron.end is None else aileron.end)
    if aileron.chord <= WIDEST_AILERON * chord:
        return []
    words = f"it must be at most 60 % of the wing chord there ({say_length(design, chord)})"
    fix = "15 to 25 % is usual."
    return [DesignError("wing.aileron.chord", say_length(design, aileron.chord), words, fix)]


def _joint(design: Design) -> list[DesignError]:
    joint, span = design.wing.joint, 2 * half_span(design)
    if joint.brace is None or joint.brace_length <= span:
        return []
    words = f"it must be no longer than the wing, {say_length(design, span)}"
    fix = "A sixth of the span is usual."
    return [
        DesignError("wing.joint.brace_length", say_length(design, joint.brace_length), words, fix)
    ]


def _rising(key: str, values: Sequence[float], what: str) -> list[DesignError]:
    if all(first < second for first, second in pairwise(values)):
        return []
    got = f"[{', '.join(say_percent(value) for value in values)}]"
    fix = "List them from the leading edge backwards."
    return [DesignError(key, got, f"{what} must rise from one to the next", fix)]


def _creases(design: Design) -> list[DesignError]:
    wing = design.wing
    positions = wing.crease_positions
    if wing.build != "folded" or positions is None:
        return []
    faults = _rising("wing.crease_positions", positions, "crease positions")
    if len(positions) != wing.creases:
        got = f"a list of {len(positions)}"
        words = f"wing.creases is {wing.creases}, and each crease needs one position"
        fix = f"Write creases = {len(positions)}, or list {wing.creases}."
        faults.append(DesignError("wing.crease_positions", got, words, fix))
    if any(not 0.0 < position < 1.0 for position in positions):
        words = "each must lie between the leading edge (0 %) and the trailing edge (100 %)"
        got = f"[{', '.join(say_percent(position) for position in positions)}]"
        faults.append(DesignError("wing.crease_positions", got, words, "Take the end ones out."))
    return faults


def _steps(design: Design) -> list[DesignError]:
    steps = design.wing.steps
    if design.wing.build != "stepped":
        return []
    if not 1 <= len(steps) <= 3:
        words = "a stepped wing has 1 to 3 steps"
        return [DesignError("wing.steps", f"a list of {len(steps)}", words, "Write steps = [0.5].")]
    faults = _rising("wing.steps", steps, "steps")
    if any(not 0.1 <= step <= 0.95 for step in steps):
        got = f"[{', '.join(say_percent(step) for step in steps)}]"
        faults.append(
            DesignError("wing.steps", got, "each step must lie at 10 to 95 % of the chord")
        )
    return faults


def _attachment(design: Design) -> list[DesignError]:
    held = design.wing.attachment
    if held.kind == "bands" and held.bands < 2:
        words = "a wing held by bands needs at least 2"
        return [
            DesignError("wing.attachment.bands", str(held.bands), words, "Four or more is usual.")
        ]
    return []


def _wing_place(design: Design) -> list[DesignError]:
    back = design.wing.position + root_chord(design)
    if back <= design.fuselage.length + SLACK:
        return []
    chord, end = say_length(design, root_chord(design)), say_length(design, back)
    body = say_length(design, design.fuselage.length)
    words = f"with a chord of {chord} the wing ends at {end}, behind the fuselage of {body}"
    fix = "Move the wing forward or make the fuselage longer."
    return [DesignError("wing.position", say_length(design, design.wing.position), words, fix)]


WING_RULES = (
    _panels,
    _spar,
    _span_wise,
    _aileron,
    _joint,
    _creases,
    _steps,
    _attachment,
    _wing_place,
)
