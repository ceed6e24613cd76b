"""The Doppler shift of a source that passes, worked in an open physics textbook.

University Physics, volume 1 (OpenStax), section 17.7: a train whistle of 150 Hz at 35.0 m/s in
air with a speed of sound of 340 m/s is heard at 167 Hz coming and 136 Hz going.
"""

import pytest

from foamwright.sound.doppler import doppler_speed, heard_frequency

SOURCE = "[OSX-DOPPLER] section 17.7, worked example"


@pytest.mark.parametrize(
    ("way", "speed", "printed"), [("coming", 35.0, 167), ("going", -35.0, 136)]
)
def test_tone_heard(reproduce, way, speed, printed):
    reproduce(
        f"150 Hz at 35.0 m/s, {way} [Hz]",
        computed=heard_frequency(150.0, speed, speed_of_sound=340.0),
        printed=printed,
        near=0.5,
        source=SOURCE,
    )


def test_speed_from_the_tones(reproduce):
    reproduce(
        "speed from 167 and 136 Hz [m/s]",
        computed=doppler_speed(167.0, 136.0, speed_of_sound=340.0),
        printed=35.0,
        rel=0.5 / 31 * 1.42,  # both tones are printed to the nearest hertz
        source=SOURCE,
    )
