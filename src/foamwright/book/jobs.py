"""Which parts are worked on in which job, and which jobs each job needs.

A job takes the parts whose id matches and that no earlier job took. A job without parts or items
drops out, and what needed it then needs what it needed. Times are common practice: six to ten hours
for a first plane of about fifty parts.
"""

from dataclasses import dataclass

MINUTE = 60.0  # s


@dataclass(frozen=True, slots=True)
class Job:
    """A row of the table.

    Attributes:
        id: Of the step.
        title: In trade words.
        match: Regular expression on part ids; "" for none.
        needs: Ids of jobs.
        how: Sentences.
        base: Time whatever the number of parts. [min]
        each: Time for each part or item. [min]
        items: Regular expression on ids of bought things; "" for none.
        glued: Whether glue must set.
        always: Kept even without parts.
    """

    id: str
    title: str
    match: str
    needs: tuple[str, ...]
    how: tuple[str, ...]
    base: float
    each: float
    items: str = ""
    glued: bool = True
    always: bool = False


WING = r"^(wing-skin|wing-layer|wing-tip|aileron|spar|rib|reinforcement|wing-web)"
TAIL = r"^(stab|elevator|fin|rudder|vee|v-tail|ruddervator)"
CUTTING = "cut-wing", "cut-body", "cut-tail", "cut-hard"

JOBS = (
    Job(
        "spars",
        "Laminate the spars",
        r"^spar|^reinforcement.*",  # only the spar's own; see steps.py
        ("cut-wing", "cut-hard"),
        (
            "Glue the strips of each side flat on one another, ends flush, sticks and tape where "
            "they are drawn.",
            "Lay them on the flat table under a straight board with weights.",
        ),
        8,
        2,
    ),
    Job(
        "panels",
        "Build the wing panels",
        r"^(wing-skin|wing-layer|rib|wing-web)",
        ("spars", "cut-wing"),
        (
            "Crease, fold and open every line once before any glue.",
            "Glue the spar to the bottom skin on the flat table, weights on it.",
            "Close the top skin over it; glue the trailing edge in runs of 150 to 200 mm (6 to "
            "8 in), as the glue allows, each held until it has set.",
        ),
        14,
        9,
    ),
    Job(
        "stiffen",
        "Put sticks and tape on the panels",
        r"^reinforcement",
        ("panels", "cut-hard"),
        ("Press each into its glue along its whole length; both faces alike, or the panel warps.",),
        4,
        2,
    ),
    Job(
        "breaks",
        "Join inner and outer panels",
        r"^(wing-break-brace|joint-tape-\d+-.*)",
        ("stiffen", "cut-hard"),
        (
            "Try the joint dry with the brace in its place, the tip on its block.",
            "Glue the faces and the brace, then tape the seams, the lower one first.",
        ),
        8,
        3,
    ),
    Job(
        "centre",
        "Join the wing halves",
        r"^(wing-brace|joint-tape|wing-joint)",
        ("breaks", "cut-hard"),
        (
            "One half flat and weighted, the other on its block; try it dry with the brace.",
            "Glue faces and brace. When set, tape the lower seam: it takes the pull in flight.",
        ),
        12,
        3,
    ),
    Job(
        "tips",
        "Close the wing tips",
        r"^(wing-tip|aileron-closing)",
        ("stiffen",),
        ("Glue each plate over its open end, outside face outwards, and trim it flush.",),
        3,
        2,
    ),
    Job(
        "ailerons",
        "Hinge the ailerons",
        r"^aileron",
        ("tips", "centre"),
        (
            "Bevel the front edge, then tape the hinge on top with the aileron folded right over.",
            "Leave a gap below 1 mm (1/32 in) and no slack.",
        ),
        5,
        6,
        glued=False,
    ),
    Job(
        "body",
        "Glue up the fuselage",
        r"^fuselage-(\d|doubler|side|former|bottom|top|deck|floor)",
        ("cut-body",),
        (
            "Glue layer on layer, paper to paper, on the flat table, splices staggered.",
            "Weights over the whole length until it has set.",
        ),
        10,
        4,
    ),
    Job(
        "thicken",
        "Thicken nose and wing seat",
        r"^fuselage-(nose|shoulder)",
        ("body",),
        ("Glue the layers on both sides in turn, their upper edges in line with the wing seat.",),
        4,
        2.5,
    ),
    Job(
        "body-tape",
        "Tape the fuselage joints",
        r"^fuselage-tape",
        ("thicken", "body"),
        ("Lengthwise over each joint, edges folded down the sides, rubbed on hard.",),
        2,
        1.5,
        glued=False,
    ),
    Job(
        "hatch",
        "Fit the hatch, no glue",
        r"^fuselage-hatch",
        ("thicken", "body"),
        (
            "Lay it in its opening over the pack; pare its ends until it drops in without force.",
            "Tape its front edge as a hinge and its rear edge with a tab to pull: it must open for "
            "every charge.",
        ),
        3,
        2,
        glued=False,
    ),
    Job(
        "firewall",
        "Fix the firewall",
        r"^firewall",
        ("thicken", "body", "cut-hard"),
        (
            "Roughen it, glue it square to the drawn tilt, push the pins through it with glue.",
            "A fillet of glue all round.",
        ),
        10,
        3,
    ),
    Job(
        "seat",
        "Make the wing seat",
        r"^(wing-dowel|wing-bolt|wing-pad|incidence)",
        ("thicken", "body", "cut-hard"),
        (
            "Push the pieces through all layers with glue; round and smooth what the bands "
            "run over.",
        ),
        5,
        3,
    ),
    Job(
        "stab",
        "Hinge the stab",
        r"^(stab|elevator|vee|v-tail|ruddervator)(?!.*tape)",
        ("cut-tail", "cut-hard"),
        (
            "Let the stiffener in, then bevel and hinge: tape or kept paper along the straight "
            "edge, tape on the other side too.",
        ),
        6,
        4,
    ),
    Job(
        "fin",
        "Hinge the fin",
        r"^(fin|rudder)(?!.*(pin|tape))",
        ("cut-tail", "cut-hard"),
        ("Bevel and hinge the rudder as the elevator.",),
        4,
        4,
    ),
    Job(
        "tail",
        "Set the tail on the fuselage",
        r"^fin-pin",
        ("stab", "fin", "body-tape", "body"),
        (
            "Put the wing on dry. Sight from behind: stab level with the wing, fin upright.",
            "Measure both stab tips to the tip of the nose: alike. Then glue.",
        ),
        18,
        2,
        always=True,
    ),
    Job(
        "rest",
        "Fit what is left",
        r".*",
        ("body", "stiffen", "cut-hard"),
        ("Glue each in the place drawn.",),
        4,
        3,
    ),
    Job(
        "horns",
        "Set the control horns",
        r"^horn",
        ("tail", "ailerons", "cut-hard"),
        ("Slot the surface, glue the foot through it; the holes stand over the hinge line.",),
        3,
        4,
    ),
    Job(
        "servos",
        "Servos and pushrods",
        "",
        ("horns", "tail", "centre"),
        (
            "Switch the radio on and centre every servo with its arm off; then the arm on, square.",
            "Tape round the servo, glue by its lugs. Guide the rods where they are drawn.",
            "Every surface moves freely, both ways, with nothing binding.",
        ),
        8,
        7,
        items=r"^(servo|pushrod|guides)",
        glued=False,
    ),
    Job(
        "power",
        "Motor and speed controller",
        "",
        ("firewall",),
        (
            "Screw the motor on, thread lock on the screws. Controller where the air reaches it.",
            "With the propeller OFF: see that the motor turns the right way round.",
        ),
        10,
        5,
        items=r"^(motor|motor-screws|controller)",
        glued=False,
    ),
    Job(
        "radio",
        "Receiver, straps, wing hold-down",
        "",
        ("servos", "power", "seat"),
        (
            "Receiver with its antennas square to each other, off the pack and its leads.",
            "Leads long enough to lift the wing off. Put the wing on as it flies.",
        ),
        8,
        4,
        items=r"^(receiver|hook|pack-strap|bands|bolts|gear|wheel|extra|wing-bolt)",
        glued=False,
    ),
    Job(
        "balance",
        "Weigh and balance",
        r"^pack-stop",
        ("radio", "tips"),
        (
            "Everything on, ready to fly. Hold it under the wing at the marks, nose slightly down.",
            "Slide the pack until it hangs level; then glue the stop behind the pack.",
            "Hang it by nose and tail on a string: the wings stay level. If one goes down, put "
            "clay in the other tip until they do.",
        ),
        15,
        3,
        items=r"^pack$",
        always=True,
    ),
    Job(
        "set-up",
        "Set the throws",
        "",
        ("balance", "servos"),
        (
            "Set neutral, directions, throws and expo as the set-up page says.",
            "Fail-safe: motor off. Throttle cut on a switch. Range check as the radio's book says.",
        ),
        25,
        0,
        glued=False,
        always=True,
    ),
    Job(
        "propeller",
        "Propeller, last of all",
        "",
        ("set-up",),
        ("Fit it, printed side forward, nut tight. Look along it: all blades run in one track.",),
        6,
        0,
        items=r"^propeller",
        glued=False,
        always=True,
    ),
)
