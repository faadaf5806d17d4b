"""Page references: right numbers, and no page laid out twice for one that is known."""

import logging

import pypdfium2

from guidegen.render.pdf.html_pdf import write_pdf

STYLE = "<style>h1 { break-before: page } .on::after { content: target-counter(var(--to), page) }</style>"


def references(*targets: str) -> str:
    """A paragraph of numbered references."""
    return "".join(
        f"<p>at {name} <span class=on style=\"--to: '#{name}'\"></span>.</p>" for name in targets
    )


def document(*pages: tuple[str, str]) -> str:
    """A page for each heading with what stands below it."""
    body = "".join(f"<h1 id={name}>{name}</h1>{text}" for name, text in pages)
    return f"<html lang=en><head><title>t</title>{STYLE}</head><body>{body}</body></html>"


class Pages(logging.Handler):
    """Notes each page that the library tells of laying out."""

    def __init__(self) -> None:
        super().__init__(logging.INFO)
        self.made = 0

    def emit(self, record: logging.LogRecord) -> None:
        """Count a page that is made, not one that is found up to date."""
        text = record.getMessage()
        self.made += "Creating layout - Page" in text and "up-to-date" not in text


def layouts(html: str) -> tuple[list[str], int]:
    """Words of each page, and how many pages were laid out in all."""
    logger, pages = logging.getLogger("weasyprint.progress"), Pages()
    level = logger.level
    logger.addHandler(pages)
    logger.setLevel(logging.INFO)
    try:
        data = write_pdf(html, files={})
    finally:
        logger.removeHandler(pages)
        logger.setLevel(level)
    words = [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]
    return words, pages.made


def test_a_reference_back_is_known_before_its_page():
    """Pages that name earlier pages are laid out once, with the right numbers."""
    words, made = layouts(document(("a", ""), ("b", references("a")), ("c", references("b", "a"))))
    assert "at a 1." in words[1]
    assert "at b 2." in words[2] and "at a 1." in words[2]
    assert made == 3


def test_a_page_may_name_itself():
    """What stands on the same page has its number, before and after the reference."""
    own = references("b") + "<h2 id=low>low</h2>" + references("low")
    words, _ = layouts(document(("a", ""), ("b", references("low") + own)))
    assert words[1].count("at low 2.") == 2 and "at b 2." in words[1]


def test_a_reference_ahead_makes_its_page_again():
    """A contents page has the numbers of what follows it, though they come later."""
    names = [f"x{n}" for n in range(12)]
    words, made = layouts(
        document(("contents", references(*names)), *((name, "") for name in names))
    )
    for n, name in enumerate(names):
        assert f"at {name} {n + 2}." in words[0]
    assert made == len(names) + 2


def test_a_number_may_move_what_it_names():
    """Where a number grows by a digit and its line breaks, the numbers that follow are right."""
    filler = "".join(f"<p>{n}</p>" for n in range(40))
    words, _ = layouts(document(*((f"p{n}", filler + references("p9")) for n in range(11))))
    at = next(n for n, text in enumerate(words, 1) if text.startswith("p9"))
    assert all(f"at p9 {at}." in text for text in words if "at p9" in text)
