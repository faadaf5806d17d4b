"""The least that a press can be asked for, where a test is about something else than documents."""

from pathlib import Path

from guidegen.app.commands.press import PressOptions

THEMES = Path(__file__).parent.parent / "themes"


def quick_options(content: Path, out: Path, *guides: str) -> PressOptions:
    """One edition, simple cut plans, in this process, which has all libraries at hand."""
    return PressOptions(
        content=content,
        out=out,
        themes=THEMES,
        guides=guides,
        nesting_seconds=0,
        workers=1,
        editions=("checklist",),
    )
