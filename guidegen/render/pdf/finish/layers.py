"""Marked content in → layers that a viewer switches."""

from collections.abc import Sequence
from dataclasses import dataclass

import pikepdf

from guidegen.render.pdf.finish.base import open_pdf, save_pdf


@dataclass(frozen=True, slots=True)
class Switch:
    """A field on a page that shows one layer alone, or all."""

    page: int
    """From 0."""
    box: tuple[float, float, float, float]
    """Left, bottom, right, top in PDF units."""
    shows: int | None
    """Number of the layer; None shows all."""
    words: str = ""
    """What it does."""


def add_layers(data: bytes, layers: Sequence[tuple[str, str]], switches: Sequence[Switch]) -> bytes:
    """Make marked content into layers (ISO 32000-1:2008, 8.11), all of them on.

    `layers` are names in the content and titles for readers; all pages may use all of them.
    Switches are links that set the layers' state (12.6.4.12).
    """
    with open_pdf(data) as pdf:
        groups = [
            pdf.make_indirect(pikepdf.Dictionary(Type=pikepdf.Name.OCG, Name=pikepdf.String(title)))
            for _, title in layers
        ]
        pdf.Root.OCProperties = pikepdf.Dictionary(
            OCGs=pikepdf.Array(groups),
            D=pikepdf.Dictionary(
                Name=pikepdf.String("Sizes"),
                BaseState=pikepdf.Name.ON,
                ON=pikepdf.Array(groups),
                Order=pikepdf.Array(groups),
            ),
        )
        names = {f"/{name}": group for (name, _), group in zip(layers, groups, strict=True)}
        for page in pdf.pages:
            page.obj.Resources = pikepdf.Dictionary(
                {**dict(page.obj.Resources.items()), "/Properties": pikepdf.Dictionary(names)}
            )
        for switch in switches:
            _add_switch(pdf, switch, groups)
        return save_pdf(pdf)


def _add_switch(pdf: pikepdf.Pdf, switch: Switch, groups: Sequence[pikepdf.Object]) -> None:
    on = [group for number, group in enumerate(groups) if switch.shows in (None, number)]
    off = [group for number, group in enumerate(groups) if switch.shows not in (None, number)]
    state = [pikepdf.Name.ON, *on]
    if off:
        state = [pikepdf.Name.OFF, *off, *state]
    link = pikepdf.Dictionary(
        Type=pikepdf.Name.Annot,
        Subtype=pikepdf.Name.Link,
        Rect=pikepdf.Array(list(switch.box)),
        Border=pikepdf.Array([0, 0, 0]),
        Contents=pikepdf.String(switch.words),
        A=pikepdf.Dictionary(
            S=pikepdf.Name.SetOCGState, State=pikepdf.Array(state), PreserveRB=True
        ),
    )
    page = pdf.pages[switch.page].obj
    if "/Annots" not in page:
        page.Annots = pikepdf.Array()
    page.Annots.append(pdf.make_indirect(link))
