"""The shipped stock and its translations in, the note of which originals they were made from out.

./start python tests/trade_translations.py
"""

from guidegen.buildfile.read.trade import SHOWN, TRADE, shipped_texts
from guidegen.buildfile.translate.translation import Translation, read_translation
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.problems import Problem

LANGUAGES = ("de",)


def read_shipped(language: str) -> tuple[Translation, list[Problem]]:
    """The shipped translation into a language, and what is wrong in it."""
    text = (TRADE / f"stock.{language}.yaml").read_text(encoding="utf-8")
    value, source, found = read_tree(text, f"{SHOWN} in {language}")
    note = TRADE / "translated" / f"stock.{language}.json"
    before = note.read_text(encoding="utf-8") if note.is_file() else ""
    made, wrong = read_translation(language, value, source, shipped_texts(), before)
    return made, [*found, *wrong]


if __name__ == "__main__":
    for name in LANGUAGES:
        done, faults = read_shipped(name)
        (TRADE / "translated" / f"stock.{name}.json").write_text(done.kept, encoding="utf-8")
        for fault in faults:
            print(fault)
        for trail in done.missing:
            print("missing:", ".".join(map(str, trail)))
        for trail in sorted(map(str, done.outdated)):
            print("outdated:", trail)
