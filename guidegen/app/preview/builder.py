"""A content folder in → its site as a draft: every file is made when it is asked for, once.

What is drawn and planned is kept from draft to draft, and made anew only for guides of which more
than texts have changed. Documents to take home come last, in another process: nobody waits for
them who only reads.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path
from typing import Protocol

from guidegen.app.jobs.findings import Kits, find_problems
from guidegen.app.jobs.finished import Making, look_around, look_once
from guidegen.app.jobs.guides import Files, gather_plan, make_guide_files, make_size, plan_size
from guidegen.app.jobs.languages import all_languages
from guidegen.app.jobs.opening import open_content, open_theme
from guidegen.app.jobs.schemas import refresh_schemas
from guidegen.app.jobs.versions import StoredVersion, stored_versions
from guidegen.app.measured.offer import bundle_for, offer_of, site_files
from guidegen.app.measured.packages import at_hand
from guidegen.app.preview.draft import Draft, Late, Later, PageMakers, SizesWhenAsked, WhenAsked
from guidegen.app.workers.local import Result
from guidegen.assembly.records import FinishedSeen
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.translated import language_folder
from guidegen.buildfile.records.guide import Guide
from guidegen.checks.report.suppression import settle
from guidegen.errors import ContentError
from guidegen.findings.registry import PROOF_ALONE
from guidegen.geometry.fastening.whole import make_whole_kit
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan, usual_place
from guidegen.pictures.compose import draw_cover, draw_guide, draw_guide_steps, draw_size
from guidegen.pictures.records import GuidePictures, SizePictures
from guidegen.problems import Problem, collect, has_errors
from guidegen.render.booklets.booklet import sign_files
from guidegen.render.booklets.editions import expected_files
from guidegen.render.site.entries import site_entries
from guidegen.render.site.home import home_pictures, render_home
from guidegen.render.site.measured import MeasuredOffer, order_file
from guidegen.render.site.pages import page_makers
from guidegen.render.site.versions import KeptVersion, version_pages
from guidegen.render.text.links import AROUND, THEME_FOLDER, DownloadInfo, version_page
from guidegen.render.text.templates_engine import Theme
from guidegen.render.views.photos import site_photos
from guidegen.shipped import MEASURED_FILES
from guidegen.write.plans import load_plans, plan_file

DOCUMENTS = (".pdf", ".zip", ".csv", ".json", ".xlsx")
"""Endings of files to take home: only these are worth the time that they take."""


class Runner(Protocol):
    """Runs a function, perhaps elsewhere, and gives its result."""

    def __call__[**P, R](self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> R:
        """The result of the job."""


class Beside(Protocol):
    """Begins a function elsewhere, while this process goes on."""

    def __call__[**P, R](
        self, job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs
    ) -> Result[R]:
        """The result of the job, to come."""


@dataclass(frozen=True)
class _Drawn:
    """A guide that was planned and drawn."""

    signature: tuple[object, ...]
    """What its plan and drawings were made from."""
    plan: GuidePlan
    pictures: GuidePictures
    covers: GuidePictures
    """The same with one drawing of each size: what the home page shows."""
    making: Mapping[str, Making]
    """The finished thing by size: its views share how it is put together."""


class PreviewBuilder:
    """Makes drafts of one content folder, each quicker for what the last one leaves."""

    def __init__(
        self,
        content: Path,
        themes: Path,
        guides: tuple[str, ...] = (),
        *,
        run: Runner,
        beside: Beside | None = None,
    ) -> None:
        """`run` makes documents to take home; `beside` views of the first page, if there is one."""
        self._folder, self._themes, self._only, self._run = content, themes, guides, run
        self._beside = beside
        self._kits: dict[tuple[str, str], tuple[tuple[object, ...], tuple[Kit, ...]]] = {}
        self._drawn: dict[tuple[str, str], _Drawn] = {}
        self._photos: dict[str, tuple[Mapping[str, bytes], Files]] = {}
        self._at_hand: bool | None = None

    def draft(self) -> Draft:
        """The site as the content is now. Raises ContentError, UsageError."""
        opened = open_content(self._folder, self._only)
        content = opened.whole()
        refresh_schemas(self._folder, content)
        theme = open_theme(self._themes, content.site, self._folder)
        kits, problems = find_problems(content, opened.problems, self._make_kits)
        if has_errors(problems):
            raise ContentError(problems)
        (_, own), *further = all_languages(content, theme)
        makers, late = self._language(own, kits, theme)
        self._beside = None  # whoever edits waits for the page at hand, which is seldom the first
        late.sort(key=lambda one: bool(one.endings))
        if content.site.made_to_measure:
            late.insert(0, Late(f"{MEASURED_FILES}/", (), partial(_programs, content)))
        later = [Later(folder, partial(self._further, said, theme)) for folder, said in further]
        draft = Draft(tuple(settle(content, problems, PROOF_ALONE).open), makers, late, later)
        draft.add_search(("", *(folder for folder, _ in further)))
        return draft

    def _offer(self, content: Content, file: GuideFile) -> MeasuredOffer | None:
        """What a page offers to make; nothing where packages would have to be fetched first: that
        may take a minute, and a writer waits for the page."""
        if not content.site.made_to_measure:
            return None
        if self._at_hand is None:
            self._at_hand = at_hand()
        return offer_of(content, file) if self._at_hand else None

    def _further(self, content: Content, theme: Theme) -> PageMakers:
        """The same in a further language of the site, whose drawings have words of their own."""
        return self._language(content, self._make_kits(content, [*content.guides])[0], theme)

    def _language(
        self, content: Content, kits: Kits, theme: Theme
    ) -> tuple[dict[str, Callable[[], bytes]], list[Late]]:
        """What makes the site in one language, by path from the language's folder."""
        makers: dict[str, Callable[[], bytes]] = {}
        late: list[Late] = []
        plans: list[GuidePlan] = []
        drawn: dict[str, GuidePictures] = {}
        for file in content.guides:
            made = self._draw(content, file, kits[file.id])
            plan, pictures = made.plan, made.pictures
            plans.append(plan)
            drawn[file.id] = made.covers
            expected = dict(_expected(content, plan))
            stored = self._versions(content, file)
            kept = [one.kept for one in stored]
            offer = self._offer(content, file)
            makers |= page_makers(
                content, plan, pictures, theme, expected, versions=kept, offer=offer
            )
            makers |= {
                path: partial(bytes, data) for path, data in order_file(file.id, offer).items()
            }
            makers |= dict(_version_makers(content, plan, pictures, theme, stored))
            late += self._guide_late(content, made, theme)

        def home() -> Files:
            entries = site_entries(content, plans, drawn, theme)
            return render_home(content, entries, theme, pictured=False)

        # Pictures for telephones and for previews of links are drawn as PDF pages first: nobody
        # who reads waits for them.
        late.append(Late(f"{THEME_FOLDER}/", (".png",), lambda: home_pictures(content, theme)))
        late.append(Late("", (), home))
        return makers, late

    def _versions(self, content: Content, file: GuideFile) -> list[StoredVersion]:
        """Older versions of a guide, where the site keeps them."""
        if not content.site.keep_versions:
            return []
        folder = language_folder(content, content.language)
        return collect(stored_versions(self._folder, folder, file))[0]

    def _guide_late(self, content: Content, drawn: _Drawn, theme: Theme) -> Iterator[Late]:
        """Pictures and documents of one guide."""
        plan, pictures = drawn.plan, drawn.pictures
        guide = plan.file.id
        yield Late(f"{guide}/", (), lambda: sign_files(plan, pictures))
        yield Late(f"{guide}/", (), lambda: self._copies(plan.file))
        for size in plan.sizes:
            yield Late(
                f"{guide}/{size.size}/",
                (AROUND,),
                partial(look_around, drawn.making[size.size], content.words),
            )
            stored = load_plans(plan_file(self._folder / guide, size.size))
            yield Late(
                f"{guide}/{size.size}/",
                DOCUMENTS,
                partial(self._run, make_documents, content, plan, size.size, theme, stored),
            )
        yield Late(f"{guide}/", DOCUMENTS, lambda: self._run(make_guide_files, content, plan).files)

    def _copies(self, file: GuideFile) -> Files:
        """Photos for pages: those of the last draft where the author's are the same."""
        last = self._photos.get(file.id)
        if last is None or last[0] != file.pictures:
            last = self._photos[file.id] = (file.pictures, site_photos(file))
        return last[1]

    def _make_kits(self, content: Content, files: list[GuideFile]) -> tuple[Kits, list[Problem]]:
        """Kits of `files`: those of the last draft where only texts have changed."""
        kits: Kits = {}
        problems: list[Problem] = []
        for file in files:
            signature, key = guide_signature(content, file), (content.language, file.id)
            if key not in self._kits or self._kits[key][0] != signature:
                made = [
                    make_whole_kit(file, content.stock, size, words=content.words)
                    for size in file.size_names()
                ]
                found = [problem for _, told in made for problem in told]
                kits[file.id] = tuple(kit for kit, _ in made if kit is not None)
                problems += found
                # What is told has a place, which moves with the texts above it.
                self._kits.pop(key, None)
                if not found:
                    self._kits[key] = (signature, kits[file.id])
            else:
                kits[file.id] = self._kits[key][1]
        return kits, problems

    def _draw(self, content: Content, file: GuideFile, kits: tuple[Kit, ...]) -> _Drawn:
        """Plan and drawings of a guide: those of the last draft where only texts have changed."""
        key = (content.language, file.id)
        stored = tuple(load_plans(plan_file(self._folder / file.id, kit.size)) for kit in kits)
        signature = (*guide_signature(content, file), stored)
        last = self._drawn.get(key)
        if last is None or last.signature != signature:
            usual = kits[usual_place(len(kits))]
            begun = None
            if self._beside and not file.guide.picture:
                begun = self._beside(look_once, file.guide, usual, content.stock)
            # Without papers there are no template pages, which take longer than all the rest.
            site = content.site.model_copy(update={"papers": ()})
            bare = replace(content, site=site)
            sizes = tuple(
                plan_size(bare, file, kit, text, 0.0).plan
                for kit, text in zip(kits, stored, strict=True)
            )
            plan = gather_plan(content, file, sizes)

            making = {size.size: Making(file.guide, size.kit, content.stock) for size in plan.sizes}

            def draw(size: str) -> SizePictures:
                seen = FinishedSeen(making[size].views(), {})
                return draw_size(plan.of_size(size), file.guide, content.stock, content.words, seen)

            def cover(size: str) -> SizePictures:
                kit = plan.of_size(size).kit
                seen = begun.result() if begun and size == usual.size else making[size].cover
                return draw_cover(kit, file.guide, content.stock, content.words, seen)

            names = tuple(size.size for size in sizes)
            drawn = SizesWhenAsked(draw, names)
            asked = (plan, drawn, content.stock, content.words)
            steps = WhenAsked(lambda: draw_guide_steps(*asked, lambda size: making[size].joins()))
            pictures = draw_guide(*asked, steps)
            covers = replace(pictures, sizes=SizesWhenAsked(cover, names))
            last = _Drawn(signature, plan, pictures, covers, making)
            self._drawn[key] = last
        return replace(last, plan=replace(last.plan, file=file))


def load() -> None:
    """Nothing: whoever is asked for it has loaded all that a preview is made with."""


def _programs(content: Content) -> Files:
    """What a page loads to make templates to measure; nothing where it cannot be had."""
    _, bundle, _ = bundle_for(content)
    return site_files(bundle) if bundle is not None else {}


def _version_makers(
    content: Content,
    plan: GuidePlan,
    pictures: GuidePictures,
    theme: Theme,
    stored: Sequence[StoredVersion],
) -> Iterator[tuple[str, Callable[[], bytes]]]:
    """What makes pages of older versions, and reads their files."""
    guide = plan.file.id
    for one in stored:
        path = version_page(guide, one.kept.folder)
        yield path, partial(_version_page, content, plan, pictures, theme, one.kept)
        for name, (source, _) in one.files.items():
            yield f"{guide}/{one.kept.folder}/{name}", source.read_bytes


def _version_page(
    content: Content,
    plan: GuidePlan,
    pictures: GuidePictures,
    theme: Theme,
    kept: KeptVersion,
) -> bytes:
    (page,) = version_pages(content, plan, pictures, theme, [kept]).values()
    return page


def guide_signature(content: Content, file: GuideFile) -> tuple[object, ...]:
    """All that pieces, plans and drawings of a guide are made from: the guide without its texts."""
    hours = content.site.working_hours
    return (without_texts(file.guide), dict(file.drawings), content.stock, hours, content.words)


def without_texts(guide: Guide) -> Guide:
    """The guide without the words that stand on pages only, never in a drawing or plan."""
    steps = tuple(
        step.model_copy(update={"text": "", "check": None, "trouble": ()}) for step in guide.steps
    )
    gone = {"overview": "", "licence_words": "", "wearing": None, "care": None}
    return guide.model_copy(
        update={
            **gone,
            "summary": "",
            "questions": (),
            "changes": (),
            "credits": (),
            "steps": steps,
        }
    )


def _expected(content: Content, plan: GuidePlan) -> Iterator[tuple[str, DownloadInfo]]:
    """Documents that a page can lead to before they are made; their size is not known yet."""
    for size in plan.sizes:
        for name, document, paper in expected_files(content):
            path = f"{plan.file.id}/{size.size}/{name}"
            yield path, DownloadInfo(document.id, size.size, 0, paper)


def make_documents(
    content: Content, plan: GuidePlan, size: str, theme: Theme, stored: str
) -> Files:
    """All documents of one size, with the template pages that a draft leaves out."""
    planned = plan_size(content, plan.file, plan.of_size(size).kit, stored, 0.0).plan
    return make_size(content, plan.with_size(planned), size, theme).files
