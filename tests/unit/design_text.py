"""A small whole design for tests to bend."""

TEXT = """\
name = "Test"

[wing]
position = "200 mm"

[[wing.panel]]
span = "500 mm"
chord = "200 mm"

[stab]
position = "700 mm"
span = "400 mm"
chord = "130 mm"

[fin]
position = "690 mm"
span = "160 mm"
chord = "150 mm"

[fuselage]
length = "830 mm"

[pack]
position = "90 mm"
"""


def bent(old: str, new: str, text: str = TEXT) -> str:
    """The design with one text in it replaced; the text must be there."""
    assert old in text
    return text.replace(old, new, 1)
