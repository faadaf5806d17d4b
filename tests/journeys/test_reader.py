"""What a reader does with the site, on a phone, a tablet and at a desk."""

import io
import re

import pypdfium2
import pytest
from journeys.small_site import KINDS
from journeys.visits import WIDTHS, Browsing, Visit


@pytest.fixture(params=WIDTHS, ids="{}px".format)
def visit(request: pytest.FixtureRequest, browsing: Browsing) -> Visit:
    """A visit at each width, a phone by touch; at its end the pages had nothing to complain of."""
    with browsing.visit(request.param, touch=request.param == WIDTHS[0]) as visit:
        visit.name = f"{request.param}"
        yield visit
        assert visit.complaints == []


def test_find_a_guide(visit: Visit, address: str) -> None:
    """Words of a material or a part leave the guides that have them, and lead to one."""
    page = visit.page
    page.goto(address)
    page.get_by_role("searchbox").fill("mooring ring")
    cards = page.locator("article:visible")
    assert cards.count() == 1
    visit.shoot(f"find-{visit.name}")
    cards.get_by_role("link", name="Mooring bracer").click()
    assert page.get_by_role("heading", level=1).inner_text() == "Mooring bracer"
    page.go_back()
    page.get_by_role("searchbox").fill("nothing like this")
    assert page.locator("article:visible").count() == 0
    assert "0 of 2" in page.get_by_role("status").inner_text()


def test_choose_a_size(visit: Visit, address: str) -> None:
    """Two measurements, in cm or in inches, name the size and how far off each of them is."""
    page = visit.page
    page.goto(address + KINDS["guide"])
    # The page shows mm, so does the finder.
    assert page.locator(".finder-unit [value=mm]").is_checked()
    page.locator(".finder-unit [value=cm]").check()
    page.get_by_label("Forearm girth").fill("25.5")
    page.get_by_label("Wrist girth").fill("15,6")
    answer = page.locator(".finder-answer")
    assert re.search(r"Your size:\s*M", answer.inner_text())
    assert "0.5\u00a0cm less" in answer.inner_text()
    page.reload()
    assert page.get_by_label("Forearm girth").input_value() == "25.5"
    page.get_by_label("inches").check()
    page.get_by_label("Forearm girth").fill("8 7/8")
    page.get_by_label("Wrist girth").fill("5.6")
    assert re.search(r"Your size:\s*S", answer.inner_text())
    visit.shoot(f"size-finder-{visit.name}")
    answer.get_by_role("link", name="S").click()
    assert page.get_by_role("heading", level=1).inner_text() == "Mooring bracer: size S"
    assert page.get_by_role("link", name="Template sheets").first.is_visible()


def test_a_wrong_measurement_is_told(visit: Visit, address: str) -> None:
    """What is no length is marked and explained, and what is right still counts."""
    page = visit.page
    page.goto(address + KINDS["guide"])
    page.get_by_label("Forearm girth").fill("thick")
    page.get_by_label("Wrist girth").fill("16")
    assert page.get_by_label("Forearm girth").get_attribute("aria-invalid") == "true"
    assert page.get_by_text("Write a number above zero").is_visible()
    assert "Your size" in page.locator(".finder-answer").inner_text()


def test_tick_materials(visit: Visit, address: str) -> None:
    """A tick stays when the page is loaded again, on this page alone, until it is taken away."""
    page = visit.page
    page.goto(address + KINDS["size"])
    boxes = page.locator("section[aria-labelledby=materials]").get_by_role("checkbox")
    assert boxes.count() >= 5
    boxes.first.check()
    page.reload()
    assert boxes.first.is_checked() and not boxes.nth(1).is_checked()
    visit.shoot(f"ticked-{visit.name}")
    page.goto(address + "mooring-bracer/S/index.html")
    assert not boxes.first.is_checked()
    page.goto(address + KINDS["size"])
    boxes.first.uncheck()
    page.reload()
    assert not boxes.first.is_checked()


def press(visit: Visit, name: str) -> None:
    """Use a button as the device has it: by finger or by mouse."""
    button = visit.page.get_by_role("button", name=name)
    if visit.touch:
        button.tap()
    else:
        button.click()


def open_work_view(visit: Visit, address: str) -> None:
    """Go to the steps and show one at a time: first the hazards of the stage, then its first step."""
    visit.page.goto(address + KINDS["steps"])
    press(visit, "One step at a time")
    hazards = visit.page.locator(".panels:visible")
    assert hazards.count() == 1
    assert hazards.get_by_role("note").count() >= 1
    assert visit.page.locator("article.step:visible").count() == 0
    past_hazards(visit)


def past_hazards(visit: Visit, turn: str = "Next") -> None:
    """Turn on while hazards stand alone on the page."""
    while visit.page.locator(".panels:visible").count():
        press(visit, turn)


def turn_on(visit: Visit) -> None:
    """The next step, its hazards read on the way."""
    press(visit, "Next")
    past_hazards(visit)


def seen_step(visit: Visit) -> str:
    """Title of the only step that is shown."""
    titles = visit.page.locator("article.step:visible h3")
    assert titles.count() == 1
    return titles.inner_text()


def test_walk_the_steps(visit: Visit, address: str) -> None:
    """Steps turn by button and by key, the place is kept, and the first undone step comes first."""
    page = visit.page
    open_work_view(visit, address)
    first = seen_step(visit)
    turn_on(visit)
    second = seen_step(visit)
    page.keyboard.press("ArrowRight")
    past_hazards(visit)
    third = seen_step(visit)
    assert len({first, second, third}) == 3
    # Its drawing shows pieces, not only its frame.
    assert page.locator("article.step:visible .piece path").first.is_visible()
    visit.shoot(f"work-view-{visit.name}")
    page.reload()
    assert seen_step(visit) == third
    page.keyboard.press("ArrowLeft")
    past_hazards(visit, "Back")
    assert seen_step(visit) == second
    press(visit, "Back")
    past_hazards(visit, "Back")
    assert seen_step(visit) == first
    press(visit, "Back")
    assert page.get_by_role("button", name="Back").is_disabled()
    press(visit, "Next")
    page.locator("article.step:visible").get_by_role("checkbox").check()
    page.keyboard.press("Escape")
    assert page.locator("article.step:visible").count() > 3
    press(visit, "One step at a time")
    past_hazards(visit)
    assert seen_step(visit) == second


SWIPE = """
([from, to]) => {
  const area = document.querySelector("[data-waits]");
  const touch = (x) => new Touch({ identifier: 1, target: area, clientX: x, clientY: 300 });
  area.dispatchEvent(new TouchEvent("touchstart", { touches: [touch(from)], bubbles: true }));
  area.dispatchEvent(new TouchEvent("touchend", { changedTouches: [touch(to)], bubbles: true }));
}
"""
"""A finger that moves from one place across to another."""


def test_swipe_turns_the_steps(browsing: Browsing, address: str) -> None:
    """A swipe to the left goes on, one to the right goes back, and a tap stays."""
    with browsing.visit(360, touch=True) as visit:
        open_work_view(visit, address)
        first = seen_step(visit)
        visit.page.evaluate(SWIPE, [300, 100])
        past_hazards(visit)
        second = seen_step(visit)
        assert second != first
        visit.page.evaluate(SWIPE, [100, 104])
        assert seen_step(visit) == second
        visit.page.evaluate(SWIPE, [100, 300])
        past_hazards(visit, "Back")
        assert seen_step(visit) == first
        assert visit.complaints == []


BELLS = """
window.rung = 0;
const start = OscillatorNode.prototype.start;
OscillatorNode.prototype.start = function (...when) { window.rung += 1; start.apply(this, when); };
window.buzzed = 0;
navigator.vibrate = () => { window.buzzed += 1; return true; };
"""
"""Counts tones and buzzes."""


def test_timer_survives_a_reload_and_rings(visit: Visit, address: str) -> None:
    """A wait that was started runs on through a reload; its end is told, sounds and buzzes, once."""
    page = visit.page
    page.add_init_script(BELLS)
    page.clock.install()
    page.goto(address + KINDS["steps"])
    step = page.locator("[data-step=coat-faces]")
    step.get_by_role("button", name="Start the timer").click()
    page.clock.run_for(61_000)
    before = seconds(step.get_by_role("timer").inner_text())
    assert 28 * 60 + 40 < before <= 29 * 60
    page.reload()
    page.clock.run_for(2_000)
    assert before - 20 < seconds(step.get_by_role("timer").inner_text()) < before
    # Browsers let a page sound only once it has been touched again.
    page.locator("h1").click()
    page.clock.run_for(20 * 60_000)
    assert page.evaluate("[window.rung, window.buzzed]") == [0, 0]
    page.clock.run_for(9 * 60_000)
    assert "is over" in step.locator(".timer [role=status]").inner_text()
    page.clock.run_for(5_000)
    assert page.evaluate("[window.rung, window.buzzed]") == [3, 1]
    visit.shoot(f"timer-over-{visit.name}")
    step.get_by_role("button", name="Put the timer back").click()
    page.reload()
    assert step.get_by_role("button", name="Start the timer").is_visible()


LOCKS = """
window.locks = [];
const request = async (kind) => {
  const lock = { kind, held: true, release: async () => { lock.held = false; } };
  window.locks.push(lock);
  return lock;
};
Object.defineProperty(navigator, "wakeLock", { value: { request } });
"""
"""Stands in for the device (W3C, Screen Wake Lock), since a window that is not shown gets no lock."""


def test_screen_stays_awake_while_one_works(visit: Visit, address: str) -> None:
    """The screen is kept on in the work view alone, again after the page was out of sight."""
    page = visit.page
    page.add_init_script(LOCKS)
    held = "window.locks.map((lock) => lock.kind + lock.held)"
    page.goto(address + KINDS["steps"])
    assert page.evaluate(held) == []
    press(visit, "One step at a time")
    assert page.evaluate(held) == ["screentrue"]
    # The device lets go of its own accord when the page is hidden.
    page.evaluate("() => { window.locks[0].held = false; }")
    page.evaluate("document.dispatchEvent(new Event('visibilitychange'))")
    assert page.evaluate(held) == ["screenfalse", "screentrue"]
    press(visit, "All steps")
    assert page.evaluate(held) == ["screenfalse", "screenfalse"]


def test_what_a_guide_tells_of_itself(visit: Visit, address: str) -> None:
    """Files with pages and size, errata that name their template, questions, credits, licence."""
    page = visit.page
    page.goto(address + KINDS["guide in one size"])
    files = page.get_by_role("region", name="Files to print and keep").locator("table")
    row = files.locator("tr", has_text="Template sheets").first
    assert re.search(r"A4\s+\d+\spages\s+[\d.]+\skB", row.inner_text())
    assert all(
        re.search(r"[\d.]+\s[kM]B$", row.inner_text()) for row in files.locator("tbody tr").all()
    )
    erratum = page.locator(".changes li", has_text="The window of the wall was too low.")
    if not erratum.is_visible():  # on a phone what is read once is folded away
        page.locator("details:has(.changes) > summary").first.click()
    assert "Printed before 1.2? Print again: A1 Wall" in erratum.inner_text().replace("\n", " ")
    page.evaluate("document.querySelectorAll('details').forEach((fold) => { fold.open = true; })")
    assert page.get_by_role("heading", name="Does the lamp get warm?").is_visible()
    licence = page.get_by_role("region", name="Licence and credits")
    assert "CC BY-SA 4.0" in licence.inner_text()
    assert "Templates and words by the pattern loft" in licence.inner_text()
    visit.shoot(f"guide-with-errata-{visit.name}")
    erratum.get_by_role("link").click()
    piece = page.locator(":target")
    assert "Wall" in piece.inner_text() and piece.is_visible()


def seconds(clock: str) -> int:
    """Of a timer's face, '28:59'."""
    minutes, left = clock.split(":")
    return 60 * int(minutes) + int(left)


def lightness(visit: Visit) -> float:
    """Of the page's ground, from 0 to 255."""
    colour = visit.page.evaluate("getComputedStyle(document.body).backgroundColor")
    return sum(map(float, re.findall(r"[\d.]+", colour)[:3])) / 3


def test_dark(browsing: Browsing, address: str) -> None:
    """A device set to dark gets a dark page with light drawings of their own foam colours."""
    for width in WIDTHS:
        with browsing.visit(width, dark=True) as dark, browsing.visit(width) as light:
            dark.page.goto(address + KINDS["size"])
            light.page.goto(address + KINDS["size"])
            assert lightness(dark) < 40
            assert lightness(light) > 200
            dark.shoot(f"dark-{width}")


def test_steps_print(browsing: Browsing, address: str) -> None:
    """On paper each step stands with its cautions before it on one page, without any controls."""
    with browsing.visit() as visit:
        open_work_view(visit, address)
        visit.page.keyboard.press("Escape")
        data = visit.page.pdf(format="A4", prefer_css_page_size=True)
        titles = visit.page.locator(".step h3").all_inner_texts()
    with pypdfium2.PdfDocument(io.BytesIO(data)) as document:
        texts = [page.get_textpage().get_text_bounded() for page in document]
        sizes = [page.get_size() for page in document]
    texts = [re.sub(r"\s+", " ", text) for text in texts]
    words = " ".join(texts)
    # ISO 216, A4: 210 × 297 mm; a point is 25.4/72 mm. The browser rounds up to whole CSS px.
    assert all(size == pytest.approx((595.3, 841.9), abs=1.2) for size in sizes)
    for title in titles:
        assert re.sub(r"\s+", " ", re.sub(r"^Step \d+:\s", "", title)) in words
    for control in ("One step at a time", "Start the timer", "Skip to content", "All steps"):
        assert control not in words
    (page,) = [text for text in texts if "Adults cut the bracers with a craft knife" in text]
    line = page.find("Cut away from yourself, on a table")
    assert -1 < page.find("cut bracers, bands and badges") < line
    assert line < page.find("Adults cut the bracers with a craft knife")
    assert words.find("Sharp blade") < words.find("Cut away from yourself, on a table")


def test_by_keyboard_alone(browsing: Browsing, address: str) -> None:
    """From the home page to the last step without a pointer."""
    with browsing.visit(1440) as visit:
        page = visit.page
        page.goto(address)
        tab_to(visit, "Mooring bracer")
        page.keyboard.press("Enter")
        page.wait_for_url("**/mooring-bracer/index.html")
        tab_to(visit, "Follow the steps")
        page.keyboard.press("Enter")
        page.wait_for_url("**/steps.html")
        tab_to(visit, "One step at a time")
        page.keyboard.press("Enter")
        count = page.locator("[data-step]").count()
        for _ in range(page.locator("[data-step], [data-before]").count() - 1):
            page.keyboard.press("ArrowRight")
        assert page.locator(".work-count").inner_text() == f"{count} of {count}"
        tab_to(visit, "Done")
        page.keyboard.press("Space")
        page.keyboard.press("Escape")
        assert page.get_by_role("checkbox", name="Done").last.is_checked()
        assert visit.complaints == []


def tab_to(visit: Visit, words: str) -> None:
    """Press Tab until what has the focus is called by these words."""
    called = (
        "(document.activeElement.closest('label') ?? document.activeElement).textContent.trim()"
    )
    for _ in range(120):
        visit.page.keyboard.press("Tab")
        if visit.page.evaluate(called) == words:
            return
    raise AssertionError(f"the keyboard does not reach {words!r}")
