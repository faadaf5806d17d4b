"""What guidegen fit says about the nearest size."""

from dataclasses import replace

from guidegen.app.commands.fit import MOST_PARTS, advice_words
from guidegen.geometry.fit.records import EdgeGrowth, MeasurementGap, SizeAdvice

MISFITS = (MeasurementGap("chest", 1030, 1000, 88), MeasurementGap("wrist", 166.4, 166, 11))
ADVICE = SizeAdvice("M", 0.4, MISFITS, (("M", 0.4), ("L", 0.7)))


def test_what_is_off_is_told_in_mm():
    """The nearest size with each measurement that is off by 1 mm or more."""
    assert advice_words(ADVICE) == [
        "nearest size: M",
        "  chest: 1030 mm, size M has 1000 (+30)",
    ]


def test_allowances_that_cover_a_growth_are_told_from_those_that_do_not():
    """For each part its worst edge: covered parts by name, others with what is missing."""
    growths = (
        EdgeGrowth("cuff", "top", 8, 0),
        EdgeGrowth("cuff", "bottom", 5, 0),
        EdgeGrowth("band", "top", 8, 20),
    )
    assert advice_words(replace(ADVICE, growths=growths))[2:] == [
        "too small in size M, by more than trim allowances cover:",
        "  cuff: edge top needs 8 mm more, allowance 0 mm",
        "small in size M, covered by trim allowances: band",
    ]


def test_many_parts_are_counted():
    """A long list ends with the number of parts that are left."""
    growths = tuple(EdgeGrowth(f"part-{n}", "top", 20 - n, 0) for n in range(MOST_PARTS + 3))
    words = advice_words(replace(ADVICE, growths=growths))
    assert words[-1] == "  and 3 more parts"
    assert len(words) == 3 + MOST_PARTS + 1
