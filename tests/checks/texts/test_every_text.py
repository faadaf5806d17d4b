"""Every text of every model, filled with links that lead nowhere: each one is told at its place."""

import json
from pathlib import Path
from typing import get_args

import pytest
from samples import GUIDE, SITE, STOCK, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.read.translation_reader import read_translations
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.meanings import Markup, Wording
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.walk import fields_of, texts_of
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Trail, read_tree, trail_text
from guidegen.checks.run import run_checks
from guidegen.problems import collect

DEAD = "[x](term:no-such) and [y](javascript:alert)"
"""A reference that names nothing, and an address that no page may link to."""

GUIDE_MORE = """\
picture: {file: a.png, alt: A cuff}
questions: [{ask: Why, answer: So}]
changes: [{version: 1.0, date: 2026-11-01, text: First, parts: [cuff]}]
suppress: [{code: never-cut, reason: no}]
rates: {cement: {low: 3, likely: 4, high: 5, source: measured}}
fastenings: {rivets: {name: Rivets, points: [plate.ring], fastener: buckle}}
straps: {strap: {name: Strap, material: webbing, from: {row: plate.ring, holds: 20},
                 bridges: [10, 20]}}
strips: {tape: {name: Tape, material: webbing, length: 20}}
linkages: {row: {name: Row, opens: 10, joints: [{first: {row: plate.ring, edge: rim},
                 second: {row: plate.ring, edge: rim}}]}}
casings: {hem: {name: Hem, along: [cuff.top], goods: webbing, length: 100}}
circuits: {lamp: {name: Lamp, on: plate, cell: buckle, light: buckle, resistor: buckle}}
harnesses: {cross: {name: Cross, material: webbing,
                    places: {a: {name: A, row: plate.ring}, b: {name: B, row: plate.ring}},
                    straps: {long: {name: Long, via: [a, b], lengths: [100]}}}}
fits: {arm: {says: It fits, value: "1", least: 0}}
sequences:
  finish:
    about: Last things
    steps: [{id: wipe, title: Wipe, stage: care, text: Wipe it., time: 1 min}]
"""

STEPS_MORE = """\
  - {sequence: finish, id: last}
  - id: again
    title: Look
    stage: care
    text: Look.
    time: 1 min
    uses: [{material: buckle, count: 1}]
    picture: {file: a.png, alt: A cuff}
    trouble: [{sign: Loose, cure: Glue}]
    waive: [{caution: blade, reason: no}]
    heard: [{at: "3:20", said: Look at it}]
  - {same-as: again, id: twice}
"""

SITE_MORE = """\
languages: [en, de]
shops: {harbour: {name: Harbour shop, note: Closed on Mondays}}
"""

STOCK_MORE = """\
musts: [{need: [cutting], reason: first}]
sequences:
  shared:
    about: Of all guides
    finds: {all: {about: Every part}}
    steps: [{id: wipe, title: Wipe, stage: care, text: Wipe it., time: 1 min}]
"""


def tree(text: str) -> dict:
    """Plain values of a build file, without where they stand."""
    value, _, problems = read_tree(text, "x")
    assert not problems
    return value


def model_in(kind: object) -> type[Model] | None:
    """The model inside an annotation."""
    if isinstance(kind, type):
        return kind if issubclass(kind, Model) else None
    return next((m for part in get_args(kind) if (m := model_in(part))), None)


class Filled:
    """A build file whose texts are all dead links, and where they stand."""

    def __init__(self, model: type[Model], text: str) -> None:
        self.places: dict[Trail, Wording] = {}
        self.reached: set[tuple[str, str]] = set()
        self.value = tree(text)
        self.fill(self.value, model, ())

    def fill(self, value: dict, model: type[Model], trail: Trail) -> None:
        """Put a dead link in every text of one record, and of those below it."""
        for field in fields_of(model):
            info = model.model_fields[field.name]
            place = (*trail, field.key)
            if isinstance(field.texts, Wording):
                self.reached.add((model.__name__, field.name))
                several = "tuple" in str(info.annotation)
                keyed = "dict" in str(info.annotation)
                if keyed:
                    continue  # names that a sequence takes: for the author only
                for at in [(*place, 0)] if several else [place]:
                    self.places[at] = field.texts
                value[field.key] = [DEAD] if several else DEAD
            elif (inner := model_in(info.annotation)) and field.key in value:
                self.below(value[field.key], inner, place)

    def below(self, value: object, model: type[Model], trail: Trail) -> None:
        """The records in a list, in a mapping, or the one that stands there."""
        if isinstance(value, list):
            for number, one in enumerate(value):
                self.fill_entry(one, model, (*trail, number))
        elif isinstance(value, dict) and not (set(value) & {f.key for f in fields_of(model)}):
            for key, one in value.items():
                self.fill_entry(one, model, (*trail, key))
        elif isinstance(value, dict):
            self.fill(value, model, trail)

    def fill_entry(self, value: dict, model: type[Model], trail: Trail) -> None:
        """One record; entries of `steps` that become steps hold fewer texts."""
        if "same-as" in value:
            value |= {"title": DEAD, "text": DEAD, "check": DEAD}
            step = {field.key: field.texts for field in fields_of(model)}
            self.places |= {(*trail, key): step[key] for key in ("title", "text", "check")}
        elif "sequence" not in value:
            self.fill(value, model, trail)


def written(value: dict) -> str:
    """The values as YAML with each on a line of its own (JSON is YAML)."""
    return json.dumps(value, indent=1)


def all_texts() -> set[tuple[str, str]]:
    """Every field with words that a reader may see, of every model of build files."""
    found, waiting, seen = set(), [Guide, Stock, Site], set()
    while waiting:
        model = waiting.pop()
        if model in seen:
            continue
        seen.add(model)
        for field in fields_of(model):
            inner = model_in(model.model_fields[field.name].annotation)
            waiting += [inner] if inner else []
            if isinstance(field.texts, Wording):
                found.add((model.__name__, field.name))
    return found


HOLES = "    dimensions: {diameter: 60}\n"
ROW = (
    HOLES
    + "    points: {ring: {circle: {diameter: 30}, count: 4}}\n"
    + "    inscriptions: [{text: A, height: 5}]\n"
)
GUIDE_TEXT = (
    GUIDE.replace("steps:\n", GUIDE_MORE + "steps:\n", 1).replace(HOLES, ROW, 1) + STEPS_MORE
)


@pytest.fixture(scope="module")
def filled(tmp_path_factory) -> tuple[dict[str, Filled], Path]:
    """The three build files with dead links everywhere."""
    files = {
        "site": Filled(Site, SITE + SITE_MORE),
        "stock": Filled(Stock, STOCK + STOCK_MORE),
        "guide": Filled(Guide, GUIDE_TEXT),
    }
    folder = tmp_path_factory.mktemp("filled")
    write_content(folder, **{name: written(file.value) for name, file in files.items()})
    (folder / "cuff" / "a.png").write_bytes(b"x")
    return files, folder


def test_the_sample_has_every_text_of_every_model(filled):
    """A model or text that the sample below does not reach fails here, by its name."""
    files, _ = filled
    reached = set().union(*(file.reached for file in files.values()))
    assert all_texts() - reached == set()


def test_every_text_is_told_with_its_place(filled):
    """Two findings for each text: CommonMark tells the dead links, other texts that none works."""
    files, folder = filled
    content = read_content(folder)
    found: dict[tuple[str, str], list[str]] = {}
    for problem in run_checks(content):
        if problem.code in {"dead-reference", "dead-link", "link-in-plain-text"}:
            name = problem.place.file.rpartition("/")[2].removesuffix(".yaml")
            found.setdefault((name, problem.path), []).append(problem.code)
            assert DEAD in problem.place.text, problem
    wanted = {}
    for name, file in files.items():
        for trail, wording in file.places.items():
            if name == "guide" and trail[0] == "sequences" and len(trail) < 4:
                continue  # for the author
            if wording.shown:
                plain = wording.markup is Markup.NONE
                codes = ["link-in-plain-text"] * 2 if plain else ["dead-link", "dead-reference"]
                wanted[name, trail_text(trail)] = codes
    assert {place: sorted(codes) for place, codes in found.items()} == wanted


def test_every_translated_text_is_told_with_its_place(filled):
    """The same in the translations of all three files."""
    _, folder = filled
    content = read_content(folder)
    records = {"site": content.site, "stock": content.stock, "guide": content.guides[0].guide}
    for name, record in records.items():
        value = translation(record)
        where = "cuff/guide.de.yaml" if name == "guide" else f"{name}.de.yaml"
        (folder / where).write_text(written(value), encoding="utf-8")
    read, problems = collect(read_translations(folder, content))
    assert problems == []
    told = {
        (problem.place.file.rpartition("/")[2], problem.path)
        for problem in run_checks(read)
        if problem.code in {"dead-reference", "dead-link", "link-in-plain-text"}
        and ".de." in problem.place.file
    }
    assert told == {
        (made.source.file.rpartition("/")[2], trail_text(trail))
        for made in (
            *read.shared_translations["de"], read.guides[0].translations["de"],
        )
        for trail in made.texts
    }  # fmt: skip
    assert len(told) > 60


def translation(record: Model) -> dict:
    """Every translated text of a build file, by the trails that its translation uses."""
    value: dict = {}
    for trail in texts_of(record):
        inside = value
        for step in trail[:-1]:
            inside = inside.setdefault(step, {})
        inside[trail[-1]] = DEAD
    return lists(value)


def lists(value: object) -> object:
    """Mappings whose keys are numbers as lists."""
    if not isinstance(value, dict):
        return value
    if value and all(isinstance(key, int) for key in value):
        return [lists(value.get(number, {})) for number in range(max(value) + 1)]
    return {key: lists(inside) for key, inside in value.items()}
