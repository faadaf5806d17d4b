"""What the gate presses, and that its check of a press finds pages with little on them."""

import importlib.util
from pathlib import Path
from types import ModuleType

import pikepdf
import pytest
from render.edition_samples import edition

ROOT = Path(__file__).parent.parent


def module(name: str) -> ModuleType:
    """A script of the gate."""
    spec = importlib.util.spec_from_file_location(name, ROOT / ".ci" / f"{name}.py")
    assert spec is not None and spec.loader is not None
    found = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(found)
    return found


@pytest.fixture(scope="module")
def check_out() -> ModuleType:
    """The check as the gate runs it."""
    return module("check_out")


def written(path: Path, shares: list[float], chapters: list[int]) -> Path:
    """A PDF of A4 pages printed on down to `shares` of their room; chapters begin on some pages."""
    pdf = pikepdf.new()
    for share in shares:
        page = pdf.add_blank_page(page_size=(595.28, 841.89))
        top = 841.89 - (17 / 25.4 * 72 + 24.9)
        room = top - (21 / 25.4 * 72 + 24.9)
        page.Contents = pdf.make_stream(f"72 {top - share * room} 200 {share * room} re f".encode())
    with pdf.open_outline() as outline:
        for number in chapters:
            outline.root.append(pikepdf.OutlineItem(f"Chapter {number}", number))
    pdf.save(path)
    return path


def test_a_page_with_little_on_it_is_found_within_a_chapter(check_out, tmp_path):
    """A quarter of a page is too little, half is not; the last page of a chapter may be short."""
    shares = [1.0, 0.25, 0.5, 0.25, 1.0, 0.25]
    path = written(tmp_path / "within.pdf", shares, [0, 4])
    assert [number for number, _ in check_out.hollow(path)] == [2]
    assert [round(full, 1) for _, full in check_out.hollow(path)] == [0.2]
    other = written(tmp_path / "ends.pdf", shares, [0, 2])
    assert [number for number, _ in check_out.hollow(other)] == [4]


def test_no_page_of_a_small_booklet_is_hollow(check_out, tmp_path):
    """Steps that fall on page breaks in many ways leave no page under a third full."""
    path = tmp_path / "booklet.pdf"
    path.write_bytes(edition("screen").data)
    assert list(check_out.hollow(path)) == []


def test_the_gate_presses_the_middle_size_of_a_guide():
    """Of the marshal's five sizes the third is left, all else as it was; a lamp without sizes stays."""
    middle = module("middle_sizes").middle_alone
    text = (ROOT / "content" / "slipway-marshal" / "guide.yaml").read_text(encoding="utf-8")
    gone = {*text.splitlines()} - {*middle(text).splitlines()}
    assert [line.split(":")[0].strip() for line in sorted(gone)] == ["L", "S", "XL", "XS"]
    lamp = (ROOT / "content" / "quay-lamp" / "guide.yaml").read_text(encoding="utf-8")
    assert middle(lamp) == lamp
