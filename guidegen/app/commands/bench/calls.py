"""What was typed for a command of the bench → that command, and its closing words."""

from argparse import Namespace
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from guidegen.app.commands.bench.redraw import RedrawOptions, redraw_file
from guidegen.app.commands.bench.worksheet import WorksheetOptions, make_worksheet
from guidegen.errors import UsageError

if TYPE_CHECKING:
    from guidegen.app.commands.bench.flatten import FlattenResult
    from guidegen.progress import Reporter


def redraw(options: Namespace) -> str:
    """A drawing of a PDF or DXF."""
    chosen = RedrawOptions(
        file=options.file,
        out=options.out,
        lengths=tuple(options.length),
        points=tuple(options.point),
        roles=tuple(options.roles),
        pages=tuple(options.pages),
        unit=options.unit,
        scale=options.scale,
        again=options.again,
    )
    return redraw_file(chosen).summary()


def flatten(options: Namespace, progress: "Reporter") -> "FlattenResult":
    """Flat pieces of a form."""
    from guidegen.app.commands.bench.flatten import (  # noqa: PLC0415 - loads scipy's solvers
        FlattenOptions,
        flatten_form,
    )

    chosen = FlattenOptions(
        form=options.form,
        out=options.out or Path("flat"),
        unit=options.unit,
        foam=options.foam,
        shows=options.shows,
        along=options.along,
        sharp=options.sharp,
        longest=options.longest,
        up=options.up,
        material=options.material,
        language=options.language,
    )
    return flatten_form(chosen, progress)


def trace(options: Namespace) -> str:
    """A drawing from photos, or the strips to lay beside a template."""
    from guidegen.app.commands.bench.trace import (  # noqa: PLC0415 - its library is an extra
        TraceOptions,
        trace_photos,
        write_frame,
    )

    if options.frame:
        if options.photos:
            raise UsageError("write strips and trace photos in two calls")
        return write_frame(options.out or Path("strips"), options.language).summary()
    chosen = TraceOptions(
        photos=tuple(options.photos),
        out=options.out or Path("trace"),
        what=options.what,
        thick=options.thick,
        ruler=options.ruler,
        marks=options.marks,
        language=options.language,
    )
    return trace_photos(chosen).summary()


def worksheet(options: Namespace) -> str:
    """A worksheet of a talk."""
    given = WorksheetOptions(options.talk, options.content, options.to, options.video)
    return make_worksheet(given).summary()


CALLS: dict[str, Callable[[Namespace], str]] = {
    "redraw": redraw,
    "trace": trace,
    "worksheet": worksheet,
}
"""By the name of the command."""
