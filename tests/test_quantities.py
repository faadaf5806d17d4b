"""Quantities in words."""

import pytest

from guidegen import quantities
from guidegen.quantities import duration_words, work_words
from guidegen.words import ENGLISH, SPACE


def plain(text):
    """Text with ordinary spaces."""
    return text.replace(SPACE, " ")


@pytest.mark.parametrize(
    ("minutes", "text"),
    [(0, "0 min"), (5, "5 min"), (60, "1 h"), (90, "1 h 30 min"), (1440, "1 d"), (1500, "1 d 1 h"),
     (2870, "2 d"), (2 * 1440 + 29, "2 d"), (0.4, "0 min"), (59.6, "1 h")],
)  # fmt: skip
def test_durations(minutes, text):
    """A duration is told in days and hours, or hours and minutes."""
    assert plain(duration_words(minutes, ENGLISH)) == text


@pytest.mark.parametrize(
    ("minutes", "text"), [(0, "0 min"), (45, "45 min"), (90, "1 h 30 min"), (2895, "48 h")]
)
def test_work_is_told_in_hours(minutes, text):
    """Hands-on time never turns to days."""
    assert plain(work_words(minutes, ENGLISH)) == text


@pytest.mark.parametrize(
    ("amount", "unit", "text"),
    [(2.62, "ml", "2.6 ml"), (224.4, "ml", "224 ml"), (1250, "ml", "1.25 l"), (808, "mm", "808 mm"),
     (4560, "mm", "4.56 m"), (1, "pieces", "1 piece"), (42, "pieces", "42 pieces"),
     (3, "sheets", "3 sheets")],
)  # fmt: skip
def test_amounts(amount, unit, text):
    """An amount is told in the unit that reads best."""
    assert plain(quantities.amount_words(amount, unit, ENGLISH)) == text


@pytest.mark.parametrize(
    ("price", "currency", "text"),
    [
        (16, "EUR", "€16"),
        (16.5, "EUR", "€16.50"),
        (4.5, "USD", "$4.50"),
        (218.7, "GBP", "£218.70"),
        (3, "CHF", "CHF 3"),
        (2.9999999, "EUR", "€3"),
    ],
)
def test_prices(price, currency, text):
    """A price has its sign or code, and its cents: what stands below one another adds up."""
    assert plain(quantities.money_words(price, currency, ENGLISH)) == text


def test_price_ranges():
    """A range names its currency once, and one price where both are alike."""
    assert plain(quantities.money_range(198, 233.2, "EUR", ENGLISH)) == "€198 to €233.20"
    assert plain(quantities.money_range(61.2, 61.2, "EUR", ENGLISH)) == "€61.20"


def test_lengths_areas_weights_sizes():
    """Half millimetres stay below 100 mm; areas, weights and file sizes keep two figures."""
    assert plain(quantities.length_words(2.5, ENGLISH)) == "2.5 mm"
    assert plain(quantities.length_words(340.4, ENGLISH)) == "340 mm"
    assert plain(quantities.inch_words(82.55, ENGLISH)) == "3 1/4 in"
    assert plain(quantities.area_words(620_000, ENGLISH)) == "0.62 m²"
    assert plain(quantities.area_words(900, ENGLISH)) == "9 cm²"
    assert plain(quantities.weight_words(846, ENGLISH)) == "850 g"
    assert plain(quantities.weight_words(1260, ENGLISH)) == "1.3 kg"
    assert plain(quantities.file_size_words(300, ENGLISH)) == "1 kB"
    assert plain(quantities.file_size_words(1_840_000, ENGLISH)) == "1.8 MB"
