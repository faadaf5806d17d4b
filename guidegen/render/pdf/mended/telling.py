"""Whether WeasyPrint tells something of a document, which must be told of the next as well."""

import logging
from collections.abc import Iterator
from contextlib import contextmanager


class HasTold(logging.Handler):
    """Whether something was told."""

    any = False

    def emit(self, record: logging.LogRecord) -> None:
        """It was."""
        del record
        self.any = True


@contextmanager
def listening() -> Iterator[HasTold]:
    """What tells, until the end, whether a warning was given."""
    told = HasTold(logging.WARNING)
    logger = logging.getLogger("weasyprint")
    logger.addHandler(told)
    try:
        yield told
    finally:
        logger.removeHandler(told)
