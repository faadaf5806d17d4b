"""Bytes of an ICC profile in → whether a press can be described by it."""

MOST_BYTES = 5_000_000
"""Our choice: profiles of presses have 0.5 to 3 MB."""

SPACES = {b"GRAY": 1, b"CMYK": 4}
"""Colour spaces of presses and how many inks they have (ICC.1:2010, table 19)."""


def press_inks(profile: bytes) -> int:
    """How many inks an output profile is for: 1 or 4; 0 for what is no profile of a press.

    ICC.1:2010, 7.2: size, class and colour space stand in the header, 'acsp' at byte 36.
    """
    if len(profile) < 132 or profile[36:40] != b"acsp" or profile[12:16] != b"prtr":
        return 0
    if int.from_bytes(profile[:4], "big") != len(profile):
        return 0
    return SPACES.get(profile[16:20], 0)
