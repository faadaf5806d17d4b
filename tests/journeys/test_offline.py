"""A guide in a shed without network: saved when asked, read from the device, removed again."""

import io
import json
import threading
from functools import partial
from http.server import ThreadingHTTPServer
from pathlib import Path
from urllib.parse import urljoin

import pytest
from journeys.conftest import _Silent
from journeys.visits import WIDTHS, Browsing
from PIL import Image

GUIDE = "mooring-bracer/index.html"


@pytest.mark.parametrize("width", [WIDTHS[0], WIDTHS[-1]])
def test_saved_guide_reads_without_network(browsing: Browsing, site: Path, width: int) -> None:
    """Saved with size M, all its pages and the files of that size are there with no host left."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Silent, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.05})
    thread.start()
    address = f"http://127.0.0.1:{server.server_port}/"
    with browsing.visit(width) as visit:
        page = visit.page
        page.goto(address + GUIDE)
        area = page.locator(".offline")
        area.locator("select").select_option("M")
        told = json.loads((site / "mooring-bracer" / "offline.json").read_text())
        size = sum(told["pages"].values()) + sum(told["sizes"]["M"].values())
        area.get_by_role("button", name=f"Save for offline ({size / 1e6:.1f} MB)").click()
        page.wait_for_selector(".offline.kept")
        assert f"{size / 1e6:.1f} MB with the files of size M" in area.inner_text()
        server.shutdown()
        server.server_close()
        thread.join()
        page.reload()
        assert page.locator("h1").inner_text() == "Mooring bracer"
        page.wait_for_selector(".offline.kept")
        for path in (*told["pages"], *told["sizes"]["M"]):
            if path.endswith(".html"):
                page.goto(urljoin(address + GUIDE, path))
                assert page.locator("h1").is_visible()
            else:
                got = page.evaluate(
                    "(url) => fetch(url).then((r) => r.status)", urljoin(address + GUIDE, path)
                )
                assert got == 200, path
        page.goto(address)
        assert page.get_by_role("link", name="Mooring bracer").first.is_visible()
        page.goto(address + GUIDE)
        page.get_by_role("button", name="Remove from this device").click()
        page.wait_for_function(
            "() => caches.keys().then((all) => !all.some((n) => n.includes('guide-')))"
        )
        assert visit.context.cookies() == []


def test_nothing_is_kept_unasked(browsing: Browsing, address: str) -> None:
    """A visit leaves no worker and no cache behind."""
    with browsing.visit() as visit:
        visit.page.goto(address + GUIDE)
        visit.page.wait_for_selector(".offline:not([hidden])")
        found = "() => navigator.serviceWorker.getRegistrations().then((all) => all.length)"
        assert visit.page.evaluate(found) == 0
        assert visit.page.evaluate("caches.keys()") == []


def test_list_names_files_with_their_bytes(site: Path) -> None:
    """Each file of the list is there and as large as it says; archives are left out."""
    folder = site / "mooring-bracer"
    told = json.loads((folder / "offline.json").read_text())
    assert set(told["sizes"]) == {"S", "M"}
    for names in (told["pages"], *told["sizes"].values()):
        for name, size in names.items():
            assert (folder / name).stat().st_size == size
            assert not name.endswith(".zip")
    assert {"index.html", "steps.html", "S/index.html", "M/index.html"} <= set(told["pages"])


# W3C, Web Application Manifest: members and their meaning. That browsers want pictures of 192 and
# 512 px before they offer to install is common practice, no source.
def test_manifest_lets_the_site_be_installed(browsing: Browsing, address: str, site: Path) -> None:
    """The browser reads the manifest without a complaint, and its pictures are as large as told."""
    told = json.loads((site / "site.webmanifest").read_text())
    assert told["name"]
    sizes = set()
    for icon in told["icons"]:
        data = (site / icon["src"]).read_bytes()
        if icon["type"] == "image/png":
            with Image.open(io.BytesIO(data)) as image:
                assert icon["sizes"] == f"{image.width}x{image.height}"
            sizes.add((icon["sizes"], icon["purpose"]))
    assert {("192x192", "any"), ("512x512", "any"), ("512x512", "maskable")} <= sizes
    with browsing.visit() as visit:
        visit.page.goto(address + "mooring-bracer/steps.html")
        reader = visit.context.new_cdp_session(visit.page)
        read = reader.send("Page.getAppManifest")
        assert read["url"] == f"{address}site.webmanifest"
        assert read["errors"] == []


def test_maskable_picture_keeps_its_drawing_in_the_circle(site: Path) -> None:
    """Outside the circle of 0.8 of its width, which masks may cut, the picture is plain.

    W3C, Web Application Manifest, icon masks and safe zone: a circle with a radius of 40 % of the
    width around the centre.
    """
    with Image.open(site / "theme.files" / "icon-mask.png") as image:
        pixels = image.convert("RGB")
    ground = pixels.getpixel((0, 0))
    middle, radius = pixels.width / 2, 0.4 * pixels.width
    for x in range(0, pixels.width, 3):
        for y in range(0, pixels.height, 3):
            if (x - middle) ** 2 + (y - middle) ** 2 > radius**2:
                assert pixels.getpixel((x, y)) == ground, (x, y)


@pytest.mark.parametrize("word", ["localhost", "http", "//"])
def test_worker_names_no_host(site: Path, word: str) -> None:
    """The worker keeps files of its own site alone: no address of a host stands in it."""
    code = [line for line in (site / "worker.js").read_text().splitlines() if line[:2] != "//"]
    assert word not in "\n".join(line.split(" // ")[0].split("    //")[0] for line in code)
