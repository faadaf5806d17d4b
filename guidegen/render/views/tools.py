"""Tools of a materials list in → each in words, with the steps that need it."""

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.layout.records import ToolLine
from guidegen.render.views.cautions import SignView, sign_view
from guidegen.render.views.scene import LinkView, Scene, step_links


@dataclass(frozen=True, slots=True)
class ToolView:
    """A tool or a piece of protective equipment."""

    id: str
    name: str
    href: str
    alternative: str
    note: Markup
    steps: tuple[LinkView, ...]
    sign: SignView | None
    """ISO 7010 sign of protective equipment."""
    also: tuple[str, ...] = ()
    """Other words for it."""


def tool_views(
    scene: Scene, tools: tuple[ToolLine, ...], *, protective: bool
) -> tuple[ToolView, ...]:
    """Those that protect, or all others."""
    return tuple(tool_view(scene, tool) for tool in tools if tool.protective is protective)


def tool_view(scene: Scene, tool: ToolLine) -> ToolView:
    """One tool with the steps that need it."""
    known = scene.content.stock.tools.get(tool.tool)
    return ToolView(
        id=tool.tool,
        name=tool.name,
        href=scene.links.to("tool", tool.tool),
        alternative=tool.alternative,
        note=scene.prose(tool.note),
        steps=step_links(scene, tool.steps),
        sign=sign_view(scene, known.sign) if known and known.sign else None,
        also=known.also if known else (),
    )
