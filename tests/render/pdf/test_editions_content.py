"""What an author says about editions, videos and a press: taken, or refused with a cure."""

from pathlib import Path

import pytest
from samples import GUIDE, SITE, changed, write_content

from guidegen.buildfile.read.print_profile import press_inks
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.steps import Video
from guidegen.cli import build_parser
from guidegen.documents import Edition
from guidegen.errors import ContentError
from guidegen.render.pdf.print_shop import gray_profile


def refused(folder: Path) -> list[tuple[str, str]]:
    """Code and message of every problem."""
    with pytest.raises(ContentError) as caught:
        read_content(folder)
    return [(problem.code, problem.message) for problem in caught.value.problems]


def test_editions_are_named_in_site_yaml(tmp_path):
    """A site names its editions; an unknown one is refused with those that there are."""
    site = SITE + "editions: [screen, large-print]\n"
    content = read_content(write_content(tmp_path / "good", site=site))
    assert content.site.editions == (Edition.SCREEN, Edition.LARGE_PRINT)
    site = SITE + "editions: [screen, poster]\n"
    ((_, message),) = refused(write_content(tmp_path / "bad", site=site))
    assert "large-print" in message


def test_press_takes_editions_from_the_command_line():
    """--editions a,b gives names; without it the site chooses."""
    parser = build_parser()
    assert parser.parse_args(["press", "--editions", "fold,archive"]).editions == [
        "fold",
        "archive",
    ]
    assert list(parser.parse_args(["press"]).editions) == []


@pytest.mark.parametrize(
    ("at", "link"),
    [
        (None, "https://video.example.org/w?v=1"),
        ("0:05", "https://video.example.org/w?v=1#t=5"),
        ("3:20", "https://video.example.org/w?v=1#t=200"),
        ("1:02:05", "https://video.example.org/w?v=1#t=3725"),
    ],
)
def test_times_of_a_video_are_seconds(at, link):
    """Minutes and seconds become the seconds of a media fragment."""
    assert Video(address="https://video.example.org/w?v=1", at=at).link == link


@pytest.mark.parametrize(
    "video",
    [
        "{address: 'http://video.example.org/w'}",
        "{address: 'javascript:alert(1)'}",
        "{address: 'https://video.example.org/w#t=9'}",
        "{address: 'https://video.example.org/\"><b>'}",
        "{address: https://video.example.org/w, at: 3.20}",
        "{address: https://video.example.org/w, at: '3:60'}",
        "{at: '3:20'}",
    ],
)
def test_other_addresses_and_times_are_refused(tmp_path, video):
    """A video is an https address without a mark, and a time in minutes and seconds."""
    step = "    text: Warm it and bend it.\n"
    guide = changed(GUIDE, step, f"{step}    video: {video}\n")
    assert refused(write_content(tmp_path, guide=guide))


def test_videos_are_read(tmp_path):
    """A guide and its steps name their videos."""
    step = "    text: Warm it and bend it.\n"
    guide = changed(
        GUIDE, step, f"{step}    video: {{address: https://video.example.org/w, at: 3:20}}\n"
    )
    guide += "video: {address: https://video.example.org/all}\n"
    (file,) = read_content(write_content(tmp_path, guide=guide)).guides
    assert [step.video.at for step in file.guide.steps if step.video] == ["3:20"]
    assert file.guide.video is not None


def test_the_profile_of_a_press_is_read(tmp_path):
    """A profile of an output device beside site.yaml is taken as it is."""
    folder = write_content(tmp_path, site=SITE + "print-profile: press.icc\n")
    (folder / "press.icc").write_bytes(gray_profile())
    assert read_content(folder).print_profile == gray_profile()
    assert press_inks(gray_profile()) == 1


def test_other_files_are_no_profile_of_a_press(tmp_path):
    """A screen's profile, a torn one, a missing one and one elsewhere are refused."""
    site = SITE + "print-profile: press.icc\n"
    screen = gray_profile().replace(b"prtrGRAY", b"mntrRGB ")
    for name, data in (("screen", screen), ("torn", gray_profile()[:-4]), ("words", b"no profile")):
        folder = write_content(tmp_path / name, site=site)
        (folder / "press.icc").write_bytes(data)
        assert [code for code, _ in refused(folder)] == ["print-profile"]
    folder = write_content(tmp_path / "missing", site=site)
    assert [code for code, _ in refused(folder)] == ["no-file"]
    folder = write_content(tmp_path / "link", site=site)
    (tmp_path / "outside.icc").write_bytes(gray_profile())
    (folder / "press.icc").symlink_to(tmp_path / "outside.icc")
    assert [code for code, _ in refused(folder)] == ["outside"]
    bad = write_content(tmp_path / "path", site=SITE + "print-profile: ../outside.icc\n")
    assert refused(bad)
