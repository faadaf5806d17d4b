"""Facts about a document in → its XMP packet (ISO 16684-1): what archives and presses read.

A packet says what the document information dictionary says, in the same words.
"""

from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

PACKET_ID = "W5M0MpCehiHzreSzNTczkc9d"
"""Fixed by ISO 16684-1, 7.3.2."""


PDF = "http://ns.adobe.com/pdf/1.3/"
"""Namespace of the Adobe PDF schema."""


@dataclass(frozen=True, slots=True)
class Facts:
    """What is said about a document."""

    title: str
    author: str
    subject: str
    date: str
    """ISO 8601 date of the guide's version; a clock would change the bytes from press to press."""
    producer: str = "guidegen"

    @property
    def time(self) -> str:
        """The date as XMP has it: the beginning of that day."""
        return f"{self.date}T00:00:00+00:00"

    @property
    def info(self) -> dict[str, str]:
        """The same for the information dictionary of a PDF."""
        return {
            "/Title": self.title,
            "/Author": self.author,
            "/Subject": self.subject,
            "/Producer": self.producer,
            "/CreationDate": self.pdf_time,
            "/ModDate": self.pdf_time,
        }

    @property
    def pdf_time(self) -> str:
        """The same moment as ISO 32000-1, 7.9.4 has it."""
        return f"D:{self.date.replace('-', '')}000000+00'00'"


def screen_packet(title: str) -> bytes:
    """Metadata of PDF/UA-1 (ISO 14289-1:2014, 5 and 7.1: its mark and a title)."""
    return _wrapped(
        _described("pdfuaid", "http://www.aiim.org/pdfua/ns/id/", part="1")
        + '  <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">\n'
        f"   <dc:title><rdf:Alt>{_item(title)}</rdf:Alt></dc:title>\n"
        "  </rdf:Description>\n"
    )


def archive_packet(facts: Facts) -> bytes:
    """Metadata of PDF/A-3u (ISO 19005-3, 6.6.4)."""
    return _packet(
        facts,
        _described("pdfaid", "http://www.aiim.org/pdfa/ns/id/", part="3", conformance="U"),
    )


def press_packet(facts: Facts, identity: str) -> bytes:
    """Metadata of PDF/X-4 (ISO 15930-7, 6.16: version, dates, trapping and ids are named).

    `identity` is a UUID.
    """
    return _packet(
        facts,
        _described("pdfxid", "http://www.npes.org/pdfx/ns/id/", GTS_PDFXVersion="PDF/X-4")
        + _described("pdf", PDF, Trapped="False")
        + _described(
            "xmpMM",
            "http://ns.adobe.com/xap/1.0/mm/",
            DocumentID=f"uuid:{identity}",
            VersionID="1",
            RenditionClass="default",
        ),
    )


def _described(prefix: str, namespace: str, **properties: str) -> str:
    """Properties of one schema."""
    lines = "".join(
        f"   <{prefix}:{name}>{escape(value)}</{prefix}:{name}>\n"
        for name, value in properties.items()
    )
    head = f"  <rdf:Description rdf:about={quoteattr('')} xmlns:{prefix}={quoteattr(namespace)}>\n"
    return f"{head}{lines}  </rdf:Description>\n"


def _packet(facts: Facts, more: str) -> bytes:
    times = dict.fromkeys(("CreateDate", "ModifyDate", "MetadataDate"), facts.time)
    return _wrapped(
        f"{more}"
        '  <rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/">\n'
        "   <dc:format>application/pdf</dc:format>\n"
        f"   <dc:title><rdf:Alt>{_item(facts.title)}</rdf:Alt></dc:title>\n"
        f"   <dc:creator><rdf:Seq><rdf:li>{escape(facts.author)}</rdf:li></rdf:Seq></dc:creator>\n"
        f"   <dc:description><rdf:Alt>{_item(facts.subject)}</rdf:Alt></dc:description>\n"
        "  </rdf:Description>\n"
        + _described("xmp", "http://ns.adobe.com/xap/1.0/", **times)
        + _described("pdf", PDF, Producer=facts.producer)
    )


def _item(text: str) -> str:
    return f'<rdf:li xml:lang="x-default">{escape(text)}</rdf:li>'


def _wrapped(descriptions: str) -> bytes:
    text = (
        f'<?xpacket begin="\ufeff" id="{PACKET_ID}"?>\n'
        '<x:xmpmeta xmlns:x="adobe:ns:meta/">\n'
        ' <rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">\n'
        f"{descriptions}"
        " </rdf:RDF>\n</x:xmpmeta>\n"
        '<?xpacket end="w"?>'
    )
    return text.encode("utf-8")
