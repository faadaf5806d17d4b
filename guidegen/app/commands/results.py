"""What a command ended with → one JSON object for programs.

`version` changes when a key changes its meaning; keys may be added.
"""

from guidegen.app.commands.sizes import SizesResult
from guidegen.app.jobs.press_state import PressResult
from guidegen.checks.report.report import finding_row, json_words

VERSION = 1


def press_json(result: PressResult) -> str:
    """Counts, bytes, seconds, documents that were made, cut plans with a gap, findings."""
    counts = result.counts
    return json_words(
        {
            "version": VERSION,
            "out": str(result.out),
            "unchanged": result.unchanged,
            "guides": counts.guides,
            "sizes": counts.sizes,
            "pdf_pages": counts.pdf_pages,
            "files": counts.files,
            "bytes": counts.size,
            "seconds": round(result.seconds, 1),
            "made": list(result.made),
            "kept": result.kept,
            "cut_plans_that_may_be_better": list(result.gaps),
            "findings": [finding_row(problem) for problem in result.problems],
        }
    )


def sizes_json(result: SizesResult) -> str:
    """The page, and what share of a population each size serves; shares from 0 to 1."""
    coverage = result.coverage
    served = None
    if coverage is not None:
        served = {
            "people": coverage.people,
            "share": round(coverage.share, 4),
            "sizes": {one.size: round(one.share, 4) for one in coverage.served},
            "too_small": coverage.too_small,
            "too_large": coverage.too_large,
            "mixed": coverage.mixed,
        }
    return json_words({"version": VERSION, "page": str(result.page), "coverage": served})
