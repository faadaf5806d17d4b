"""Widths of the fields of a title strip: who is shortened first where there is too little room."""

import pytest

from guidegen.pictures.templates.strip import LEAST_FIELD, StripField, field_widths

OWNER = StripField("Owner", "The very long name of a club of the harbour", share=1.0, keeps=True)
CREATOR = StripField("Creator", "Somebody with a long name indeed", share=1.0)
VERSION = StripField("Version", "1.0", 600)
ROW = (OWNER, CREATOR, VERSION)


def test_what_is_left_over_goes_to_the_shares() -> None:
    """Both long fields grow alike, the version stays as wide as its words; the row is filled."""
    owner, creator, version = field_widths(ROW, 250)
    assert owner - OWNER.width == pytest.approx(creator - CREATOR.width)
    assert version == VERSION.width
    assert owner + creator + version == pytest.approx(250)


def test_the_owner_is_shortened_last() -> None:
    """With too little room the creator gives way; only then the owner; the version never does."""
    whole = sum(field.width for field in ROW)
    owner, creator, version = field_widths(ROW, whole - 20)
    assert (owner, version) == (OWNER.width, VERSION.width)
    assert creator == pytest.approx(CREATOR.width - 20)
    owner, creator, version = field_widths(ROW, whole - CREATOR.width)
    assert creator == pytest.approx(LEAST_FIELD)
    assert owner == pytest.approx(OWNER.width - LEAST_FIELD)
    assert version == VERSION.width
