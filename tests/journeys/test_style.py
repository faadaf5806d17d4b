"""The style sheet: nothing in it that no page needs."""

import re
from collections.abc import Iterable
from pathlib import Path

from journeys.small_site import KINDS
from journeys.visits import Browsing, Visit

from guidegen.render.site.frame import STYLE_SHEETS

ROOT = Path(__file__).parents[2]
USED = 0.83
"""Share of the style sheet's bytes that pages as they load use at the least. The rest is for what
a reader does (pointing, typing, printing) and for guides that have more."""

ASK_ALL = "for (const one of document.querySelectorAll('*')) getComputedStyle(one).color"
"""What lies below the screen has no style before somebody asks, or scrolls there."""


def used_rules(visit: Visit, address: str, kinds: Iterable[str]) -> set[tuple[int, int]]:
    """Places of the rules that apply to some page, as the browser counts them."""
    found: set[tuple[int, int]] = set()
    tools = visit.context.new_cdp_session(visit.page)
    tools.send("DOM.enable")
    tools.send("CSS.enable")
    for kind in kinds:
        tools.send("CSS.startRuleUsageTracking")
        visit.page.goto(address + KINDS[kind], wait_until="networkidle")
        if kind == "steps":
            visit.page.get_by_role("button", name="One step at a time").click()
        forced = [{"name": "forced-colors", "value": "active"}]
        dark = [{"name": "prefers-color-scheme", "value": "dark"}]
        for media, features in (("print", []), ("", forced), ("", dark), ("", [])):
            tools.send("Emulation.setEmulatedMedia", {"media": media, "features": features})
            visit.page.evaluate(ASK_ALL)
        usage = tools.send("CSS.stopRuleUsageTracking")["ruleUsage"]
        found |= {(rule["startOffset"], rule["endOffset"]) for rule in usage if rule["used"]}
    return found


def test_most_of_the_style_sheet_is_used(browsing: Browsing, address: str, site: Path) -> None:
    """Pages as they load, on a phone and at a desk, use nearly all of the style sheet."""
    used: set[tuple[int, int]] = set()
    for width, kinds in ((360, ("guide", "size", "steps")), (1440, KINDS)):
        with browsing.visit(width) as visit:
            used |= used_rules(visit, address, kinds)
    text = (site / "theme.files" / "site.css").read_text(encoding="utf-8")
    rules = [found.span() for found in re.finditer(r"[^{}]+\{[^{}]*\}", text)]
    idle = [
        text[start:end] for start, end in rules if not any(a < end and b > start for a, b in used)
    ]
    share = 1 - sum(map(len, idle)) / sum(end - start for start, end in rules)
    print(f"style sheet used: {share:.0%}")
    assert share >= USED, "".join(idle)


def test_every_class_of_the_style_sheet_exists() -> None:
    """Each class that the style sheet names is written by a template, a script or a drawing."""
    theme = ROOT / "themes" / "workshop"
    styles = re.sub(
        r"/\*.*?\*/|\{[^{}]*\}|url\([^)]*\)",
        " ",
        "\n".join((theme / name).read_text("utf-8") for name in STYLE_SHEETS),
        flags=re.S,
    )
    named = set(re.findall(r"\.([a-z][a-z0-9-]+)", styles))
    sources = [*theme.glob("*.j2"), *theme.glob("*.js"), *(ROOT / "guidegen").rglob("*.py")]
    written = "\n".join(path.read_text(encoding="utf-8") for path in sources)
    # Part of a class may be worked out: fill-foam-3, caution-word.
    missing = [
        name
        for name in sorted(named)
        if not re.search(rf"\b{name}\b", written)
        and not re.search(rf"\b{re.sub(r'[0-9]+$|-[a-z]+$', '', name)}", written)
    ]
    assert missing == []
