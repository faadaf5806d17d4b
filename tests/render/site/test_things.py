"""The list of all that readers may look up: names, other words, and where each thing stands."""

import json
from dataclasses import dataclass, replace

from conftest import Asking
from render.page_samples import sample, theme

from guidegen.render.site.entries import site_entries
from guidegen.render.site.things import MOST_OWN, MOST_PLACES, Thing, things_script


@dataclass(frozen=True)
class Listed:
    """A guide as the list sees it."""

    title: str
    things: tuple[Thing, ...]


def listed(*guides: Listed) -> dict[str, list]:
    """The list of these guides, read back."""
    text = things_script(sample()[0], guides).decode()
    start, _, data = text.partition("=")
    assert start == "globalThis.thingsOfSite"
    return json.loads(data.removesuffix(";\n"))


def test_things_of_a_guide_have_their_words_and_places():
    """A tool with two more words leads to the page of tools; what no page describes is left out."""
    content, plan, pictures = sample()
    tools = content.stock.tools
    tools = tools | {"knife": tools["knife"].model_copy(update={"also": ("cutter", "blade")})}
    content = replace(content, stock=content.stock.model_copy(update={"tools": tools}))
    (entry,) = site_entries(content, [plan], {plan.file.id: pictures}, theme())
    found = {(thing.kind, thing.name): thing for thing in entry.things}
    knife = found["tool", tools["knife"].name]
    assert knife.also == ("cutter", "blade")
    assert knife.href == f"{plan.file.id}/tools.html#tool-knife"
    used = {tool.tool for size in plan.sizes for tool in size.materials.tools}
    assert {thing.name for thing in entry.things if thing.kind == "tool"} == {
        tools[name].name for name in used & set(tools)
    }
    assert "cutter blade" not in entry.card
    steps = [thing for thing in entry.things if thing.kind == "step"]
    assert len(steps) == len(plan.file.guide.steps)


def test_what_guides_share_stands_once_with_its_first_places():
    """One knife of six guides is one thing with a few places; a cuff of two guides is two."""
    knife = [Thing("tool", "Knife", ("cutter",), f"g{n}/tools.html#tool-knife") for n in range(6)]
    cuff = [Thing("piece", "Cuff", (), f"g{n}/index.html#piece-cuff") for n in range(6)]
    data = listed(*(Listed(f"Guide {n}", (knife[n], cuff[n])) for n in range(6)))
    assert data["guides"][5] == "Guide 5"
    rows = [row for row in data["things"] if row[1] == "Knife"]
    assert len(rows) == 1
    assert rows[0][2] == ["cutter"]
    assert rows[0][3] == [[n, f"g{n}/tools.html#tool-knife"] for n in range(MOST_PLACES)]
    assert sum(row[1] == "Cuff" for row in data["things"]) == 6


def test_a_large_site_lists_what_its_guides_share():
    """With thousands of pieces the list stays small: it keeps tools, and the index has the rest."""
    many = tuple(Thing("piece", f"Piece {n}", (), "g/#") for n in range(MOST_OWN + 1))
    data = listed(Listed("Guide", (*many, Thing("tool", "Knife", (), "g/tools.html#tool-knife"))))
    assert [row[1] for row in data["things"] if row[0] in {1, 3}] == ["Knife"]


THINGS = [
    [0, "Cutting bevels", ["chamfering"], []],
    [0, "Gluing with contact cement", [], []],
    [1, "Craft knife", ["utility knife"], []],
    [1, "Half mask with filters", ["respirator"], []],
    [2, "Contact cement", ["contact glue"], []],
    [4, "3. Bevel the rim", [], []],
    [6, "Bevel", [], []],
    [2, "Gurtband, 50 mm", ["Riemen"], []],
    [1, "Locheisen", ["Löcher"], []],
]


def test_the_thing_itself_comes_first_by_any_of_its_words(ask_script: Asking) -> None:
    """'bevel' and its plural give the technique before step and word; 'respirator' gives the mask;
    glue and gluing, knives and knife, Gurtbänder and Gurtband, Loch and Löcher are alike."""
    asked = ["bevel", "bevels", "BEVELLING", "respirators", "knives", "glue", "contact glue",
             "gurtbänder", "Loch", "mask filter", "bev", "strap", ""]  # fmt: skip
    items = [[THINGS, words] for words in asked]
    found = ask_script("search.js", "script.look(...item).map((one) => one[1])", items)
    by_words = dict(zip(asked, found, strict=True))
    technique = ["Cutting bevels", "3. Bevel the rim", "Bevel"]
    assert by_words["bevel"] == by_words["bevels"] == by_words["BEVELLING"] == technique
    assert by_words["bev"] == technique
    assert by_words["respirators"] == by_words["mask filter"] == ["Half mask with filters"]
    assert by_words["knives"] == ["Craft knife"]
    assert by_words["glue"] == ["Gluing with contact cement", "Contact cement"]
    assert by_words["contact glue"][0] == "Gluing with contact cement"
    assert by_words["gurtbänder"] == ["Gurtband, 50 mm"]
    assert by_words["Loch"] == ["Locheisen"]
    assert by_words["strap"] == by_words[""] == []


def test_places_that_bear_the_name_are_told_from_those_that_mention_it(ask_script: Asking) -> None:
    """A heading holds all words that are asked, in either number, or it does not."""
    items = [["Cut the bevels", "bevel cut"], ["Cut the bevels", "bevel glue"], ["Foam", "foams"]]
    assert ask_script("search.js", "script.holding(...item)", items) == [3, 0, 3]
