"""Words of the trade, each with a short explanation for hover or tap."""

from __future__ import annotations

import json
from pathlib import Path

from foamwright.web.word_pictures import PICTURES

SCRIPT = Path(__file__).parent / "static" / "page.js"

WORDS = {
    "all-up": "All-up mass: the whole plane ready to fly, pack in.",
    "balance point": "Where the plane hangs level on two fingertips, measured back from the wing's "
    "leading edge at the middle. Also called CG.",
    "static margin": "How far the balance point lies ahead of the neutral point, as a share of the "
    "mean chord. Small: touchy. Large: steady but dull.",
    "angle of attack": "Angle between the wing and the air that meets it.",
    "tail volume": "Size of the tail times its distance from the wing, against the wing's own "
    "size: how firmly the tail holds the plane.",
    "fold allowance": "Extra length that a folded board takes around the fold.",
    "neutral point": "Behind this point the plane turns its nose away by itself. Keep the balance "
    "point ahead of it.",
    "stall": "The slowest it flies level. Slower, and the wing lets go.",
    "span": "From wing tip to wing tip.",
    "wing loading": "Mass carried by each bit of wing. Low floats; high needs speed.",
    "chord": "Width of a wing or tail from leading to trailing edge.",
    "dihedral": "Wing tips higher than the middle, so that the plane rights itself.",
    "washout": "Tips twisted trailing edge up, so that the middle of the wing stalls first.",
    "incidence": "Angle of the wing's flat bottom to the fuselage line.",
    "decalage": "Angle between wing and stab: it sets the speed the plane settles at.",
    "margin": "How far a figure stays inside its limit. Negative is over the limit.",
    "load factor": "How many times its own weight the wing carries: 1 g level, more in a pull-out.",
    "bending moment": "What tries to fold the wing at each place along it.",
    "thrust": "Pull of the propeller.",
    "drag": "What the air holds back.",
    "pitch": "How far the propeller would screw forward in one turn.",
    "kv": "Turns a minute that a motor makes for each volt, with no load.",
    "c rating": "How hard a pack may be drained: current over capacity in hours.",
    "tray": "The stretch of the nose along which the pack can be strapped.",
    "kerf": "Width of the cut that the blade or beam takes away.",
    "nesting": "Laying the parts out on the boards so that few boards are needed.",
    "ghost": "The version put aside, drawn dashed under the present one.",
}


def word_script() -> str:
    """What every page carries: the words, their drawings, and the script that shows them.

    Returns:
        HTML. [-]

    Source:
        Definition.

    Example:
        >>> "washout" in word_script()
        True
    """
    data = json.dumps({"words": WORDS, "pictures": PICTURES}).replace("</", "<\\/")
    script = SCRIPT.read_text(encoding="utf-8")
    return f"<script>window.foamwright = {data};</script><script>{script}</script>"
