"""The finished thing in several languages: put together once, said in each."""

import json

import pytest
from geometry.kit_samples import good_kit, guide_file, stock

from guidegen.app.jobs import finished
from guidegen.app.jobs.finished import FILE, FinishedLook, finish
from guidegen.render.text.document_cache import DocumentCache
from guidegen.words import read_words

GUIDE = """
measurements: {forearm: {name: F, take: T}, wrist: {name: W, take: T}}
sizes: {M: {forearm: 260, wrist: 160}}
parts:
  cuff: {name: Cuff, label: A, material: foam-5, shape: tapered-tube, note: Cut slowly.,
         dimensions: {girth-top: forearm, girth-bottom: wrist, length: 150, ease: 25, gap: 30}}
"""


class Kept(dict[str, bytes]):
    """What a press keeps until it ends."""

    def find(self, key: str) -> bytes | None:
        """What is there."""
        return self.get(key)

    def keep(self, key: str, document: bytes) -> None:
        """Keep it."""
        self[key] = document


def look(text: str, language: str, kept: Kept) -> FinishedLook:
    """What is seen of a guide in a language."""
    cache = DocumentCache(keeper=kept)
    return finish(guide_file(text).guide, good_kit(text), stock(), read_words(language), cache)


def names(look: FinishedLook) -> set[str]:
    """Names of the nodes in its model."""
    data = look.documents["model"]
    tree = json.loads(data[20 : 20 + int.from_bytes(data[12:16], "little")])
    return {node["name"] for node in tree["nodes"]}


def test_a_second_language_takes_views_and_shapes_over(monkeypatch: pytest.MonkeyPatch) -> None:
    """Other names and notes put nothing together again, and are in the model; other sizes do."""
    made: list[object] = []
    put_together = finished.make_assembly
    monkeypatch.setattr(
        finished, "make_assembly", lambda *given: made.append(given) or put_together(*given)
    )
    kept = Kept()
    english = look(GUIDE, "en", kept)
    said = GUIDE.replace("name: Cuff", "name: Stulpe").replace("Cut slowly.", "Langsam schneiden.")
    german = look(said, "de", kept)
    assert len(made) == 1
    assert german.files[FILE] == english.files[FILE]
    assert any("A Stulpe" in name for name in names(german))
    assert not any("Cuff" in name for name in names(german))
    assert any("A Cuff" in name for name in names(english))
    look(GUIDE.replace("260", "265"), "en", kept)
    assert len(made) == 2


def test_what_is_taken_over_is_what_would_be_made() -> None:
    """A language that comes second has the bytes that it would have alone."""
    kept = Kept()
    look(GUIDE, "en", kept)
    said = GUIDE.replace("name: Cuff", "name: Stulpe")
    assert look(said, "de", kept) == look(said, "de", Kept())
