"""Content, plans and drawings in → the pages of the site out, as bytes by path from out/."""

import json
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from functools import partial

from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.pictures.records import GuidePictures
from guidegen.render.booklets.booklet import sign_files
from guidegen.render.site.entries import entry_file, site_entries
from guidegen.render.site.formerly import former_sizes
from guidegen.render.site.frame import (
    guide_frame,
    render_page,
    site_links,
    size_words,
)
from guidegen.render.site.howto import howto_block
from guidegen.render.site.icons import (
    card_file,
    guide_card,
)
from guidegen.render.site.look import look_view
from guidegen.render.site.measured import MeasuredOffer, measured_view, order_file
from guidegen.render.site.offline import WORKER, offline_list, offline_path
from guidegen.render.site.versions import KeptVersion, since_with_files, version_pages
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.links import (
    DownloadInfo,
    guide_page,
    safety_page,
    size_page,
    steps_page,
    tools_page,
)
from guidegen.render.text.living import plan_for_all, plan_in_size
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.cautions import all_cautions, waived_cautions, young_views
from guidegen.render.views.compare import compare_view
from guidegen.render.views.downloads import all_downloads, size_downloads
from guidegen.render.views.guide import (
    change_views,
    cover_photo,
    facts_view,
    has_sizes,
    kit_drawing,
    measurement_views,
    process_views,
    question_views,
    size_view,
    size_views,
    sizes_json,
)
from guidegen.render.views.materials import materials_view
from guidegen.render.views.photos import site_photos
from guidegen.render.views.pieces import cut_plan_views, piece_views, stack_views
from guidegen.render.views.scene import Scene, drawing, title_block
from guidegen.render.views.steps import stage_views
from guidegen.render.views.supplies import guide_pieces, supply_views
from guidegen.render.views.teams import team_views
from guidegen.render.views.templates import template_views
from guidegen.render.views.tools import tool_view
from guidegen.words import msg


def render_guide(
    content: Content,
    plan: GuidePlan,
    pictures: GuidePictures,
    theme: Theme,
    downloads: Mapping[str, DownloadInfo],
    *,
    cache: DocumentCache | None = None,
    versions: Sequence[KeptVersion] = (),
    offer: MeasuredOffer | None = None,
) -> dict[str, bytes]:
    """All pages of one guide, its pictures and its entry for the site's lists.

    `downloads` by path from out/; `versions` are older ones whose files are still there.
    """
    makers = page_makers(
        content, plan, pictures, theme, downloads, cache=cache, versions=versions, offer=offer
    )
    files = picture_files(plan, pictures, cache) | {path: make() for path, make in makers.items()}
    files |= order_file(plan.file.id, offer)
    guide = plan.file.id
    files |= former_sizes(content, plan.file, theme)
    files[offline_path(guide)] = offline_list(guide, files, downloads)
    files |= version_pages(content, plan, pictures, theme, versions, cache=cache)
    (entry,) = site_entries(content, [plan], {guide: pictures}, theme, versions)
    return files | {entry_file(guide): entry.text()}


def picture_files(
    plan: GuidePlan, pictures: GuidePictures, cache: DocumentCache | None = None
) -> dict[str, bytes]:
    """Photos and signs of a guide's pages, by path from out/."""
    return sign_files(plan, pictures) | site_photos(plan.file, cache)


def page_makers(
    content: Content,
    plan: GuidePlan,
    pictures: GuidePictures,
    theme: Theme,
    downloads: Mapping[str, DownloadInfo],
    *,
    cache: DocumentCache | None = None,
    versions: Sequence[KeptVersion] = (),
    offer: MeasuredOffer | None = None,
) -> dict[str, Callable[[], bytes]]:
    """What makes each page of one guide, by path from out/: a preview makes only what is read."""
    engine = Engine(theme, content.words, cache, lengths=True)
    guide = plan.file.id
    for_all = plan_for_all(plan, content.words)

    def scene(path: str, *here: str, said: GuidePlan = for_all) -> Scene:
        return Scene(content, said, pictures, site_links(content, plan, path, *here))

    overview, steps = scene(guide_page(guide), "piece"), scene(steps_page(guide), "step")
    safety = scene(safety_page(guide), "caution")
    tools = scene(tools_page(guide), "tool", "material", "process")
    makers: dict[str, Callable[[], bytes]] = {
        guide_page(guide): lambda: _overview(engine, overview, theme, downloads, (versions, offer)),
        steps_page(guide): lambda: _steps(engine, steps, theme),
        safety_page(guide): lambda: _safety(engine, safety, theme),
        tools_page(guide): lambda: _tools(engine, tools, theme),
    }
    if content.site.address:
        makers[card_file(guide)] = lambda: guide_card(engine, overview)

    def own_page(path: str, size: SizePlan) -> bytes:
        own = plan_in_size(plan, size.kit, content.words)
        page = scene(path, "piece", "material", said=own)
        return _size(engine, page, theme, size, downloads)

    for size in plan.sizes:
        path = size_page(guide, size.size)
        makers[path] = partial(own_page, path, size)
    return makers


def _overview(
    engine: Engine,
    scene: Scene,
    theme: Theme,
    downloads: Mapping[str, DownloadInfo],
    own: tuple[Sequence[KeptVersion], MeasuredOffer | None],
) -> bytes:
    guide, links, (versions, offer) = scene.guide, scene.links, own
    page = guide_frame(
        scene, theme, guide_page(scene.plan.file.id), guide.title, msg("Build guide")
    )
    page = replace(page, data=howto_block(scene))
    return render_page(
        engine,
        "guide.html.j2",
        page,
        guide=guide,
        facts=facts_view(scene),
        photo=cover_photo(scene),
        kit=kit_drawing(scene),
        look=look_view(scene),
        overview=scene.prose(guide.overview, heading=3),
        has_sizes=has_sizes(guide),
        measurements=measurement_views(scene),
        body=drawing(scene, scene.pictures.body) if scene.pictures.body else None,
        sizes=size_views(scene),
        sizes_json=sizes_json(scene),
        measured=measured_view(scene, offer, theme) if offer else None,
        compared=compare_view(scene),
        guide_id=scene.plan.file.id,
        stages=stage_views(scene),
        time_line=drawing(scene, scene.pictures.time_line),
        pieces=guide_pieces(scene),
        downloads=all_downloads(scene, downloads),
        offline_list=links.file(offline_path(scene.plan.file.id)),
        worker=links.file(WORKER),
        changes=change_views(scene),
        since=since_with_files(scene, versions),
        licence=scene.prose(guide.licence_words),
        questions=question_views(scene),
        wearing=scene.prose(guide.wearing),
        care=scene.prose(guide.care),
        contact=scene.line(scene.content.site.contact),
        steps_href=links.file(steps_page(scene.plan.file.id)),
        safety_href=links.file(safety_page(scene.plan.file.id)),
    )


def _steps(engine: Engine, scene: Scene, theme: Theme) -> bytes:
    path = steps_page(scene.plan.file.id)
    page = guide_frame(
        scene,
        theme,
        path,
        scene.words.say("{guide}: steps", guide=scene.guide.title),
        msg("Work instruction"),
    )
    return render_page(
        engine,
        "steps.html.j2",
        page,
        facts=facts_view(scene),
        stages=stage_views(scene),
        teams=team_views(scene),
        time_line=drawing(scene, scene.pictures.time_line),
        safety_href=scene.links.file(safety_page(scene.plan.file.id)),
        guide_id=scene.plan.file.id,
        waits=_waits(scene),
    )


def _waits(scene: Scene) -> str:
    """Minutes of the steps after which one waits, as JSON by id: for the timers."""
    waits = {step.id: step_wait(step, scene.content.stock) for step in scene.guide.steps}
    return json.dumps({name: wait for name, wait in waits.items() if wait})


def _safety(engine: Engine, scene: Scene, theme: Theme) -> bytes:
    path = safety_page(scene.plan.file.id)
    page = guide_frame(
        scene,
        theme,
        path,
        scene.words.say("{guide}: safety", guide=scene.guide.title),
        msg("Safety information"),
    )
    protection = [tool for tool in scene.plan.sizes[0].materials.tools if tool.protective]
    return render_page(
        engine,
        "safety.html.j2",
        page,
        cautions=all_cautions(scene),
        waived=waived_cautions(scene),
        young=young_views(scene),
        protection=tuple(tool_view(scene, tool) for tool in protection),
        wearing=scene.prose(scene.guide.wearing),
    )


def _tools(engine: Engine, scene: Scene, theme: Theme) -> bytes:
    path = tools_page(scene.plan.file.id)
    title = scene.words.say("{guide}: tools and techniques", guide=scene.guide.title)
    page = guide_frame(scene, theme, path, title, msg("Reference"))
    tools = [tool_view(scene, tool) for tool in scene.plan.sizes[0].materials.tools]
    return render_page(
        engine,
        "tools.html.j2",
        page,
        tools=tuple(tools),
        supplies=supply_views(scene),
        processes=process_views(scene),
    )


def _size(
    engine: Engine,
    scene: Scene,
    theme: Theme,
    size: SizePlan,
    downloads: Mapping[str, DownloadInfo],
) -> bytes:
    kit, pictures = size.kit, scene.pictures.sizes[size.size]
    path = size_page(scene.plan.file.id, size.size)
    words = size_words(scene, size.size)
    page = guide_frame(scene, theme, path, f"{scene.guide.title}: {words}", msg("Parts list"))
    return render_page(
        engine,
        "size.html.j2",
        page,
        block=title_block(scene, msg("Parts list"), size.size),
        size=words,
        measures=size_view(scene, kit).values,
        measurements=measurement_views(scene),
        kit=kit_drawing(scene, size.size),
        look=look_view(scene, size.size),
        materials=materials_view(scene, size.materials),
        cut_plans=cut_plan_views(scene, size, pictures),
        pieces=piece_views(scene, kit, size, pictures),
        length_drawings=[drawing(scene, svg) for svg in pictures.cut_lengths.values()],
        joins=tuple(drawing(scene, svg) for svg in pictures.joins),
        templates=template_views(scene, size, pictures),
        stacks=stack_views(scene, kit, pictures),
        downloads=size_downloads(scene, downloads, size.size),
        steps_href=scene.links.file(steps_page(scene.plan.file.id)),
        safety_href=scene.links.file(safety_page(scene.plan.file.id)),
    )
