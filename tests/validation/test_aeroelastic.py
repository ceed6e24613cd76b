"""Divergence and the flutter rule.

T. H. G. Megson, Aircraft Structures, torsional divergence example (printed to two figures);
D. J. Martin, NACA TN 4197 (1958) (from memory).
"""

from foamwright.strength.aeroelastic import divergence_arm, flutter_speed


def test_divergence(reproduce):
    reproduce(
        "how far behind the lift a wing on a root spring may be hinged, m",
        computed=divergence_arm(1.93e6, speed=350.0, area=30.0, lift_slope=3.5, density=1.226),
        printed=0.24,
        rel=0.02,
        source="Megson, example: 0.24 m, two figures",
    )


def test_flutter(reproduce):
    reproduce(
        "flutter speed of a solid balsa fin, m/s",
        computed=float(
            flutter_speed(0.23e9, aspect_ratio=1.2, taper=0.6, thickness_ratio=0.025, sound=340.3)
        ),
        printed=59.6264,
        rel=5e-3,
        source="Martin, NACA TN 4197 (from memory); the rule itself is 30 % either way",
    )
