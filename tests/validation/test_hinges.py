"""Flap effectiveness and servo linkage.

H. Glauert, R&M 1095 (1927); statics of a linkage (from memory, worked figures).
"""

import pytest

from foamwright.strength.aeroelastic import flap_effectiveness
from foamwright.strength.linkage import servo_moment


@pytest.mark.parametrize(("share", "printed"), [(0.20, 0.549815), (0.25, 0.608998)])
def test_flap(reproduce, share, printed):
    reproduce(
        f"effectiveness of a plain flap of {100 * share:.0f} % chord",
        computed=flap_effectiveness(share),
        printed=printed,
        rel=1e-3,
        source="Glauert R&M 1095 (from memory)",
    )


def test_linkage(reproduce):
    reproduce(
        "servo moment for 60.5 mN m at the hinge, arm 8 mm, horn 14 mm, N m",
        computed=servo_moment(0.0605238, arm=0.008, horn=0.014),
        printed=0.034585,
        rel=1e-3,
        source="statics",
    )
