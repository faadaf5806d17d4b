"""Captions of both formats, and what strangers may put into them."""

import random

import pytest

from guidegen.bench.talks.captions import MAX_CUES, MAX_WORDS, Cue, clock, read_cues
from guidegen.errors import UsageError

VTT = """\
WEBVTT - a talk

STYLE
::cue { color: red }

NOTE
00:00:00.000 --> 00:00:01.000
this is a note

first
00:01.500 --> 00:04.000 align:start position:10%
<v Ines>Cut <b>slowly</b>,
and &amp; breathe.</v>

01:00:05.000 --> 01:00:06.250
<00:00:05.100><c.loud>Done.</c>
"""
SRT = """\
1
00:00:01,500 --> 00:00:04,000
{\\an8}Cut slowly,

2
00:00:04,000 --> 00:00:05,000
5 mm at a time.
3
00:00:06,000 --> 00:00:07,000
Done.
"""


def test_webvtt() -> None:
    """Notes, styles, names, settings and tags go; words, entities and times stay."""
    assert read_cues(VTT) == (
        Cue(1.5, 4.0, "Cut slowly, and & breathe."),
        Cue(3605.0, 3606.25, "Done."),
    )


def test_subrip() -> None:
    """Numbers of cues are no words, also where the empty line between two is missing."""
    assert [cue.words for cue in read_cues(SRT)] == ["Cut slowly,", "5 mm at a time.", "Done."]


@pytest.mark.parametrize("ends", ["\r\n", "\r", "\n"])
def test_line_ends_and_marks_of_each_system(ends: str) -> None:
    """Files of all systems read alike, with or without a mark of their encoding."""
    assert read_cues("\ufeff" + VTT.replace("\n", ends)) == read_cues(VTT)


def test_control_codes_and_directions_go() -> None:
    """What steers a terminal or turns a line round is no word."""
    (cue,) = read_cues("00:01.000 --> 00:02.000\ncut \x1b[31mred\u202e evil\x00 &#27;[2J\n")
    assert cue.words == "cut [31mred evil [2J"


@pytest.mark.parametrize(
    "text", ["", "hello", "00:01 --> 00:02\nno fraction", "WEBVTT\n\n00:01.000 --> 00:02.000\n\n"]
)
def test_what_is_no_talk_is_refused_in_words(text: str) -> None:
    """A file without a cue that says something is no talk."""
    with pytest.raises(UsageError, match="no captions"):
        read_cues(text)


def test_sizes_are_bounded() -> None:
    """Too many cues and too many bytes are refused; a cue without end is cut."""
    cue = "00:01.000 --> 00:02.000\nword\n\n"
    with pytest.raises(UsageError, match="more than"):
        read_cues(cue * (MAX_CUES + 1))
    with pytest.raises(UsageError, match="larger than"):
        read_cues("x" * 2_000_001)
    (long,) = read_cues(cue.replace("word", "w" * 5000))
    assert len(long.words) == MAX_WORDS


def test_broken_captions_end_in_cues_or_words() -> None:
    """Seeded damage to a talk ends in cues or in a refusal, never in another error."""
    chance = random.Random(7)
    for _ in range(200):
        letters = [*(VTT + SRT)]
        for _ in range(chance.randrange(1, 12)):
            letters[chance.randrange(len(letters))] = chance.choice("<>&-:.,0\n\t{}\\\x00é\u2028")
        try:
            cues = read_cues("".join(letters))
        except UsageError:
            continue
        assert all(cue.words and cue.start >= 0 for cue in cues)


def test_times_are_written_as_build_files_have_them() -> None:
    """Minutes and seconds, with hours where there are some."""
    assert [clock(one) for one in (0, 61.9, 3605)] == ["0:00", "1:01", "1:00:05"]
