"""A pressed folder and the address where it was published → what is missing there, or differs.

Asks that one host only, with few requests at once, each with a time limit and no more bytes than
the file here has: a host that answers with anything else is told and not followed.
"""

import gzip
import http.client
import zlib
from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field, replace
from hashlib import sha256
from urllib.parse import quote, urlsplit

from guidegen.errors import UsageError
from guidegen.problems import Place, Problem, sort_problems
from guidegen.write.marker import MARKER

SECONDS = 20.0
"""Longest wait for one answer. Our choice: hosts that sleep wake up in some seconds."""
AT_ONCE = 4
"""Requests at a time. Our choice: as few as a browser would use of an older host."""
MOST_BYTES = 1_000_000
"""Files up to this size are compared byte by byte; of larger ones the size is asked for."""
MOST_FOUND = 20
"""Findings of one kind that are told one by one; more are counted."""
SETTINGS = frozenset({"published-type", "published-unpacked", "published-uncached"})
"""Findings that one setting of the host cures for all files of an ending: the first is told."""
ABSENT = "no-such-page-here/nor-here.html"
"""An address that no site of ours has: sizes lie two deep, and guides have no such page."""

TYPES: Mapping[str, tuple[str, ...]] = {
    "html": ("text/html",),
    "css": ("text/css",),
    "js": ("text/javascript", "application/javascript"),
    "svg": ("image/svg+xml",),
    "png": ("image/png",),
    "jpg": ("image/jpeg",),
    "webp": ("image/webp",),
    "avif": ("image/avif",),
    "woff2": ("font/woff2", "application/font-woff2"),
    "pdf": ("application/pdf",),
    "json": ("application/json",),
    "webmanifest": ("application/manifest+json", "application/json"),
    "xml": ("application/xml", "text/xml", "application/atom+xml"),
    "zip": ("application/zip", "application/x-zip-compressed"),
    "csv": ("text/csv",),
}
"""Media types by ending (IANA, RFC 9239 for scripts; older names that browsers take as well)."""
PACKED = frozenset({"html", "css", "js", "svg", "json", "xml", "csv"})
"""Endings of texts that become three to ten times smaller on the way."""
LEAST_PACKED = 2000
"""Bytes under which packing gains nothing to speak of. Our choice."""


@dataclass(frozen=True)
class Answer:
    """What the host said."""

    status: int
    headers: Mapping[str, str] = field(default_factory=dict)
    """With names in lower case."""
    body: bytes = b""
    """As it was before it was packed; empty where only its size was asked for."""
    fault: str = ""
    """Why there is no answer, in words."""


@dataclass(frozen=True)
class Host:
    """One host, and the folder in it where the site stands."""

    scheme: str
    name: str
    port: int | None
    folder: str

    def ask(self, path: str, most: int, *, whole: bool) -> Answer:
        """One file of the site: `whole` with at most `most` bytes, else its headers alone."""
        kind = http.client.HTTPSConnection if self.scheme == "https" else http.client.HTTPConnection
        link = kind(self.name, self.port, timeout=SECONDS)
        headers = {"Accept-Encoding": "gzip", "User-Agent": "guidegen-proof"}
        try:
            link.request("GET" if whole else "HEAD", self.folder + quote(path), headers=headers)
            reply = link.getresponse()
            told = {name.lower(): value for name, value in reply.getheaders()}
            # A file of few bytes grows when it is packed: by its head and a little more.
            body = reply.read(most + 1024) if whole else b""
        except (OSError, http.client.HTTPException) as error:
            words = getattr(error, "strerror", None) or str(error) or type(error).__name__
            return Answer(0, fault=words)
        finally:
            link.close()
        return Answer(reply.status, told, _unpacked(body, told, most))


def _unpacked(body: bytes, headers: Mapping[str, str], most: int) -> bytes:
    """The body before it was packed: never more than one byte over `most`."""
    if headers.get("content-encoding", "").lower() != "gzip":
        return body
    try:
        return zlib.decompressobj(16 + zlib.MAX_WBITS).decompress(body, most + 1)
    except (zlib.error, gzip.BadGzipFile):
        return body


def host_of(address: str) -> Host:
    """The host of an address. Raises UsageError for what is no address of a site."""
    try:
        parts = urlsplit(address)
        port = parts.port
    except ValueError:
        raise UsageError(
            f'"{address}" is no address; expected https://example.org/guides/'
        ) from None
    known = parts.scheme in {"http", "https"} and parts.hostname
    if not known or parts.query or parts.fragment or parts.username:
        raise UsageError(
            f'"{address}" is no address of a site; expected https://example.org/guides/'
        )
    return Host(parts.scheme, str(parts.hostname), port, parts.path.rstrip("/") + "/")


def check_published(
    host: Host, address: str, files: Mapping[str, str], sizes: Mapping[str, int]
) -> list[Problem]:
    """What is not as it should be. `files` are SHA-256 sums, `sizes` bytes, by path from out/."""
    names = sorted(name for name in files if name != MARKER)
    absent = host.ask(ABSENT, MOST_BYTES, whole=True)
    if absent.fault:
        message = f"nobody answers there: {absent.fault}"
        return [Problem("published-missing", Place(address), "", message)]
    with ThreadPoolExecutor(AT_ONCE) as pool:
        answers = pool.map(
            lambda name: host.ask(name, sizes[name], whole=sizes[name] <= MOST_BYTES), names
        )
        found = [
            problem
            for name, answer in zip(names, answers, strict=True)
            for problem in _of_file(address, name, answer, files[name], sizes[name])
        ]
    found += _of_site(host, address, absent)
    return sort_problems(_few(address, found))


def _of_file(address: str, name: str, answer: Answer, sha: str, size: int) -> Iterator[Problem]:
    place, ending = Place(address.rstrip("/") + "/" + name), name.rpartition(".")[2].lower()
    if answer.status != http.client.OK:
        said = answer.fault or f"the host answers {answer.status}"
        yield Problem("published-missing", place, "", f"it is not there: {said}")
        return
    length = answer.headers.get("content-length", "")
    packed = "content-encoding" in answer.headers
    if size <= MOST_BYTES:
        differs = sha256(answer.body).hexdigest() != sha
    else:
        differs = length.isdecimal() and int(length) != size and not packed
    if differs:
        yield Problem("published-differs", place, "", "it is another file than the one in out/")
    kind = answer.headers.get("content-type", "").partition(";")[0].strip().lower()
    if ending in TYPES and kind not in TYPES[ending]:
        message = f"its media type is {kind or 'not told'}; expected {TYPES[ending][0]}"
        yield Problem("published-type", place, "", message)
    if ending in PACKED and LEAST_PACKED <= size <= MOST_BYTES and not packed:
        yield Problem("published-unpacked", place, "", "it is sent without compression")
    marks = {"etag", "last-modified", "cache-control"}
    if not marks & set(answer.headers):
        message = "the host sends no ETag, Last-Modified or Cache-Control"
        yield Problem("published-uncached", place, "", message)


def _of_site(host: Host, address: str, absent: Answer) -> Iterator[Problem]:
    """How the host treats addresses that are none, and what should not lie there."""
    place = Place(address)
    if absent.status != http.client.NOT_FOUND:
        message = f"an address that does not exist is answered with {absent.status}; expected 404"
        yield Problem("published-404", place, "", message)
        return  # such a host answers whatever it is asked, so it tells of no file
    if host.ask(MARKER, MOST_BYTES, whole=False).status == http.client.OK:
        yield Problem("published-needless", place, "", f"{MARKER} was uploaded as well")


def _few(address: str, problems: list[Problem]) -> Iterator[Problem]:
    """The first of each kind, and how many more there are; of settings, one of each ending."""
    kinds: dict[tuple[str, str], list[Problem]] = {}
    for problem in problems:
        ending = problem.place.file.rpartition(".")[2] if problem.code in SETTINGS else ""
        kinds.setdefault((problem.code, ending), []).append(problem)
    for (code, ending), found in kinds.items():
        if code in SETTINGS:
            more = f"; the same of {len(found) - 1} more files in .{ending}" if found[1:] else ""
            yield replace(found[0], message=found[0].message + more)
            continue
        yield from found[:MOST_FOUND]
        if len(found) > MOST_FOUND:
            more = f"and {len(found) - MOST_FOUND} files more"
            yield replace(found[0], place=Place(address), message=more)
