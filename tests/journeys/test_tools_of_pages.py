"""Drawings large, layers together, progress in a file: what scripts add to pages that read without."""

import json
from pathlib import Path

import pytest
from conftest import Asking
from journeys.visits import Browsing

SIZE = "mooring-bracer/M/index.html"
STEPS = "mooring-bracer/steps.html"


def view_width(drawing: str) -> float:
    """Width of the part of a drawing that is shown, from its viewBox."""
    return float(drawing.split()[2])


def test_cut_plan_is_enlarged_by_buttons_keys_and_wheel(browsing: Browsing, address: str) -> None:
    """Larger, smaller and whole again; Escape gives the drawing back to its place in the page."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + SIZE)
        drawing = page.locator(".sheets svg").first
        whole = drawing.get_attribute("viewBox")
        opener = page.locator(".sheets .enlarge").first
        opener.click()
        shown = page.locator("dialog svg")
        page.get_by_role("button", name="Larger").click()
        near = view_width(shown.get_attribute("viewBox"))
        assert near == pytest.approx(view_width(whole) / 1.5, rel=1e-3)
        page.keyboard.press("+")
        assert view_width(shown.get_attribute("viewBox")) < near
        page.keyboard.press("ArrowRight")
        page.mouse.move(180, 300)
        page.mouse.wheel(0, -300)
        assert view_width(shown.get_attribute("viewBox")) < near / 2
        visit.shoot("cut-plan-enlarged-360")
        page.keyboard.press("0")
        assert list(map(float, shown.get_attribute("viewBox").split())) == list(
            map(float, whole.split())
        )
        page.keyboard.press("Escape")
        page.wait_for_selector("dialog svg", state="detached")
        assert page.locator(".sheets svg").count() >= 1
        assert visit.complaints == []


def test_zoom_keeps_the_point_under_the_finger(ask_script: Asking) -> None:
    """The point around which one zooms stays where it is, and no view leaves the drawing."""
    whole = {"x": 0, "y": 0, "width": 200, "height": 100}
    view = ask_script("zoom.js", "script.zoomed(...item)", [[whole, whole, 2, [50, 50]]])[0]
    assert view == {"x": 25, "y": 25, "width": 100, "height": 50}
    out = ask_script("zoom.js", "script.zoomed(...item)", [[view, whole, 0.01, [50, 50]]])[0]
    assert out == whole


def test_slider_puts_layers_together(browsing: Browsing, address: str) -> None:
    """At the left end each layer has moved down by its lift; at the right end all are as drawn."""
    with browsing.visit(820) as visit:
        page = visit.page
        page.goto(address + SIZE)
        stack = page.locator(".stack").first
        slider = stack.get_by_label("Pulled apart")
        slider.focus()
        page.keyboard.press("Home")
        layer = stack.locator("svg .layer").nth(1)
        assert (
            layer.get_attribute("transform") == f"translate(0 {layer.get_attribute('data-lift')})"
        )
        visit.shoot("layers-together-820")
        page.keyboard.press("End")
        assert layer.get_attribute("transform") == "translate(0 0)"
        stack.locator("tbody tr").nth(1).hover()
        assert "pointed" in layer.get_attribute("class")
        assert visit.complaints == []


def test_the_finished_thing_is_turned(browsing: Browsing, address: str) -> None:
    """A button brings all sides, which nobody loads before; keys, buttons and a drag turn it round
    and past its front, and each side says what it is. A switch shows its colours in both."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + SIZE)
        page.get_by_label("In its colours").check()
        painted = page.locator(".finished [data-paint] path").first
        before = painted.evaluate("one => getComputedStyle(one).fill")
        assert before == _as_rgb(painted.evaluate("one => one.parentElement.dataset.paint"))
        assert not any("all-sides" in one for one in visit.requests)
        page.get_by_role("button", name="Turn it", exact=True).click()
        side = page.get_by_role("slider", name="Side")
        side.wait_for()
        assert side.get_attribute("aria-valuetext") == "From the front (1 of 12)"
        assert page.locator(".finished").is_hidden()
        assert page.locator(".turning [data-paint] path").first.get_attribute("style")
        side.press("ArrowLeft")
        assert side.get_attribute("aria-valuetext") == "From the front and the right (12 of 12)"
        page.get_by_role("button", name="Turn it to the left").click()
        page.get_by_role("button", name="Turn it to the left").click()
        assert page.locator(".turning title").text_content().startswith("From the front and the l")
        page.locator(".turning svg").scroll_into_view_if_needed()
        box = page.locator(".turning svg").bounding_box()
        page.mouse.move(box["x"] + 150, box["y"] + 60)
        page.mouse.down()
        page.mouse.move(box["x"] + 150 - 72, box["y"] + 60)
        page.mouse.up()
        assert side.get_attribute("aria-valuetext") == "From the left (4 of 12)"
        assert page.locator(".turning [data-turn]:visible").count() == 1
        visit.shoot("turned-360")
        page.get_by_role("button", name="Show the three views").click()
        assert page.locator(".finished").is_visible()
        assert visit.complaints == []


def test_without_scripts_a_link_leads_to_all_sides(browsing: Browsing, address: str) -> None:
    """The three views stand in the page, and nothing that a script would have to work."""
    with browsing.visit(scripts=False) as visit:
        page = visit.page
        page.goto(address + SIZE)
        assert page.locator(".finished svg").count() == 3
        assert page.get_by_label("In its colours").is_hidden()
        page.get_by_role("link", name="See it from all sides").click()
        assert page.url.endswith("/M/all-sides.svg")


def test_it_goes_round_without_an_end(ask_script: Asking) -> None:
    """One step back from the first side is the last, and a whole turn leads back."""
    items = [[0, -1, 12], [11, 1, 12], [3, 24, 12], [2, -27, 12]]
    assert ask_script("turn.js", "script.side(...item)", items) == [11, 0, 3, 11]


def _as_rgb(colour: str) -> str:
    """A colour in hex as browsers write it."""
    red, green, blue = (int(colour[k : k + 2], 16) for k in (1, 3, 5))
    return f"rgb({red}, {green}, {blue})"


def test_progress_travels_in_a_file(browsing: Browsing, address: str, tmp_path: Path) -> None:
    """Ticks saved on one device are there on another; a file of another guide is refused."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + STEPS)
        page.get_by_label("Done").nth(2).check()
        with page.expect_download() as download:
            page.get_by_role("button", name="Save progress to a file").click()
        file = tmp_path / download.value.suggested_filename
        download.value.save_as(file)
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + STEPS)
        wrong = json.loads(file.read_text()) | {"guide": "quay-lamp"}
        (tmp_path / "wrong.json").write_text(json.dumps(wrong))
        page.locator(".progress input").set_input_files(tmp_path / "wrong.json")
        page.get_by_text("This is no progress file of this guide.").wait_for()
        assert not page.get_by_label("Done").nth(2).is_checked()
        page.locator(".progress input").set_input_files(file)
        page.wait_for_function("() => document.querySelectorAll('[data-step] input')[2]?.checked")
        assert page.get_by_label("Done").nth(2).is_checked()
        assert visit.complaints == []


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"kind":"guidegen-progress","guide":"a","kept":null}', "{" * 9999],
)
def test_other_files_are_no_progress(ask_script: Asking, text: str) -> None:
    """Whatever else is in a file, nothing of it is kept."""
    assert ask_script("progress.js", "script.readProgress(item, 'a')", [text]) == [None]


def test_only_a_guides_own_entries_are_kept(ask_script: Asking) -> None:
    """Entries of other guides, long ones and ones that are no text are left out."""
    kept = {"a/step/x": "1", "a-M/buy-foam": "1", "b/step/x": "1", "a/y": 3, "a/z": "1" * 99}
    text = json.dumps({"kind": "guidegen-progress", "guide": "a", "kept": kept})
    found = ask_script("progress.js", "script.readProgress(item, 'a')", [text])
    assert found == [[["a/step/x", "1"], ["a-M/buy-foam", "1"]]]


def test_changed_steps_are_named(browsing: Browsing, address: str) -> None:
    """A step that was ticked in another version is named above the steps; its tick stays."""
    with browsing.visit(360) as visit:
        page = visit.page
        page.goto(address + STEPS)
        page.get_by_label("Done").nth(1).check()
        page.get_by_label("Done").nth(3).check()
        assert page.locator(".changed-steps").is_hidden()
        page.evaluate(
            "() => { const key = Object.keys(localStorage).find((k) => k.includes('/step/'));"
            " localStorage.setItem(key, 'en:0ld0ld00'); }"
        )
        page.reload()
        note = page.locator(".changed-steps")
        assert note.inner_text().startswith("Changed since you ticked them: steps ")
        assert note.locator("a").count() == 1
        assert page.get_by_label("Done").nth(1).is_checked()
