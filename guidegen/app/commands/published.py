"""A pressed folder and an address → whether what was published is what was pressed."""

from pathlib import Path

from guidegen.app.jobs.published import check_published, host_of
from guidegen.checks.report.suppression import Findings
from guidegen.errors import UsageError
from guidegen.write.index import load_index


def proof_published(address: str, out: Path) -> Findings:
    """Findings about the site at `address`. Raises UsageError for no address or nothing pressed."""
    host = host_of(address)
    files = load_index(out).files
    if not files:
        raise UsageError(f"there is nothing pressed in {out}; press first, or name --out")
    try:
        sizes = {name: (out / name).stat().st_size for name in files}
    except OSError as error:
        raise UsageError(f"{out} is not whole ({error.strerror}); press again") from None
    return Findings(tuple(check_published(host, address, files, sizes)))
