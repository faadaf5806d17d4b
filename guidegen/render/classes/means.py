"""Tools and hours of a class in → how many there must be, and what its leader may change."""

from dataclasses import dataclass

from guidegen.buildfile.read.people.class_days import MOST_DAYS
from guidegen.layout.times.class_records import (
    SHORTER,
    ClassPlan,
    Gain,
    GainKind,
    HoursAdvice,
    ToolCount,
)
from guidegen.quantities import duration_words
from guidegen.render.classes.agenda import used_on
from guidegen.render.text.class_names import minute_words, span_words
from guidegen.render.views.scene import LinkView, Scene, step_links
from guidegen.words import Words


@dataclass(frozen=True, slots=True)
class CountView:
    """A tool of the class."""

    name: str
    count: int
    shared: str
    """How many people to one of it; empty where everybody has one."""
    turns: bool
    """True where people take turns with it."""
    there: str = ""
    """How many there are, where the leader has said."""
    missing: str = ""
    """How many fewer than the class would use; else empty."""
    days: str = ""
    """In a class of several days those on which it is used; empty for all."""


@dataclass(frozen=True, slots=True)
class GainView:
    """A change that would make the class shorter."""

    what: str
    steps: tuple[LinkView, ...]
    """The step to do beforehand; empty for tools."""
    saved: str


@dataclass(frozen=True, slots=True)
class AdviceView:
    """Whether the class fits its hours."""

    fits: bool
    words: str
    prepare: tuple[LinkView, ...]
    """Steps to do before the class, so that the rest fits."""
    left: tuple[LinkView, ...]
    """Steps that are not done by all when the hours are over."""
    gains: tuple[GainView, ...] = ()
    days: str = ""
    """How many days of the same hours would do, or that none do; empty where nobody asked."""


def count_views(
    scene: Scene, plan: ClassPlan, *, protective: bool, only: frozenset[str] | None = None
) -> tuple[CountView, ...]:
    """Tools, or protective equipment, in the room, with how many; `only` some of them."""
    kept = frozenset(plan.times.kept())
    return tuple(
        _count_view(scene, one, kept, used_on(scene, plan, one.tool.tool))
        for one in plan.tools
        if one.tool.protective is protective and (only is None or one.tool.tool in only)
    )


def before_count_views(scene: Scene, plan: ClassPlan) -> tuple[CountView, ...]:
    """What the leader needs beforehand, protective equipment first."""
    ordered = sorted(plan.before_tools, key=lambda one: not one.tool.protective)
    return tuple(_count_view(scene, one, frozenset()) for one in ordered)


def _count_view(scene: Scene, one: ToolCount, kept: frozenset[str], days: str = "") -> CountView:
    words = scene.words
    shared = words.many("one for {n} person", "one for {n} people", one.shared_by)
    missing = words.say("{count} too few", count=one.missing) if one.missing else ""
    return CountView(
        one.tool.name,
        one.count,
        shared if one.shared_by > 1 else "",
        one.tool.tool in kept,
        "" if one.there is None else f"{one.there}",
        missing,
        days,
    )


def advice_view(scene: Scene, plan: ClassPlan) -> AdviceView:
    """Whether it fits, and what to do where it does not."""
    advice, words = plan.advice, scene.words
    hours = duration_words(plan.hours * 60, words)
    end = duration_words(plan.times.end, words)
    if plan.times.class_days:
        said = _days_verdict(plan, words)
    elif not advice.over:
        said = words.say("The class takes {end} and fits its {hours}.", end=end, hours=hours)
    else:
        said = words.say(
            "The class takes {end}: {over} more than its {hours}.",
            end=end,
            over=duration_words(advice.over, words),
            hours=hours,
        )
    if plan.start is not None and not plan.times.class_days and not plan.runs_on:
        clock = span_words(plan, 0.0, plan.times.end, words)
        said = words.say("{verdict} By the clock: {clock}.", verdict=said, clock=clock)
    return AdviceView(
        not advice.over,
        said,
        step_links(scene, _worth_preparing(scene, plan, advice)),
        step_links(scene, advice.left),
        tuple(_gain_view(scene, plan, gain) for gain in advice.gains),
        _days_words(advice, words),
    )


def _days_words(advice: HoursAdvice, words: Words) -> str:
    if advice.days is None:
        return ""
    if not advice.days:
        return words.say(
            "Nor does it fit on {days} of these hours: take a smaller guide, or make more of it "
            "before.",
            days=words.many("{n} day", "{n} days", MOST_DAYS),
        )
    days = words.many("{n} day", "{n} days", advice.days)
    return words.say("On {days} of these hours it fits, with nothing else changed.", days=days)


def _days_verdict(plan: ClassPlan, words: Words) -> str:
    """Whether a class of several days fits them."""
    days = words.many("{n} day", "{n} days", len(plan.times.class_days))
    when = minute_words(plan, plan.times.end, words)
    if not plan.advice.over:
        return words.say("The class ends on {when} and fits its {days}.", when=when, days=days)
    over = duration_words(plan.advice.over, words)
    return words.say(
        "The class takes until {when}: {over} more than its {days}.",
        when=when, over=over, days=days,
    )  # fmt: skip


def _gain_view(scene: Scene, plan: ClassPlan, gain: Gain) -> GainView:
    words = scene.words
    saved = duration_words(gain.minutes, words)
    said = words.say("{time} less", time=saved)
    if gain.fits:
        said = words.say("{time} less: then it fits", time=saved)
    if gain.kind is GainKind.HELPER:
        return GainView(words.say("One more adult who helps"), (), said)
    if gain.kind is GainKind.BREAK:
        less = duration_words(SHORTER, words)
        span = span_words(plan, *plan.times.breaks[int(gain.name) - 1], words)
        what = words.say("Break {span} shorter by {time}", span=span, time=less)
        return GainView(what, (), said)
    if gain.kind is GainKind.TOOL:
        tool = scene.content.stock.tools[gain.name].name
        return GainView(words.say("One more: {tool}", tool=tool), (), said)
    return GainView(words.say("Done beforehand as well"), step_links(scene, (gain.name,)), said)


def _worth_preparing(scene: Scene, plan: ClassPlan, advice: HoursAdvice) -> tuple[str, ...]:
    """Nothing where more would be done before the class than in it: that is no class any more."""
    inside = len(scene.guide.steps) - len(plan.times.beforehand)
    return advice.prepare if len(advice.prepare) * 2 <= inside else ()
