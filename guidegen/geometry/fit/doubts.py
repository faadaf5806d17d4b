"""A body's measurements and a guide in → what to measure again before anything is cut."""

from collections.abc import Collection, Iterator, Mapping
from math import isfinite

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.fit.advice import size_steps, size_table
from guidegen.geometry.fit.records import Doubt
from guidegen.problems import did_you_mean
from guidegen.units import MM_PER_INCH, mm_text

FAR_OUTSIDE = 1.5
"""Size steps beyond the smallest or largest size. Our choice: trim allowances end before."""

SMALLER_THAN = (
    ("wrist", "forearm"),
    ("wrist", "hand"),
    ("wrist", "ankle"),
    ("forearm", "upper arm"),
    ("forearm", "calf"),
    ("upper arm", "chest"),
    ("upper arm", "thigh"),
    ("upper arm", "waist"),
    ("ankle", "calf"),
    ("ankle", "knee"),
    ("calf", "thigh"),
    ("knee", "thigh"),
    ("calf", "waist"),
    ("thigh", "hip"),
    ("neck", "chest"),
    ("neck", "waist"),
    ("neck", "head"),
    ("head", "chest"),
    ("head", "hip"),
)
"""Girths of which the first is smaller than the second in every adult. Checked where both are in
the 507 people of Heinz et al., Journal of Statistics Education 11(2), 2003; the others (hand,
neck, head) by the percentiles of ANSUR II, US Army 2012."""

_SAME_GIRTH = {"bicep": "upper arm", "biceps": "upper arm", "bust": "chest"}

_NOT_GIRTHS = {
    "length", "height", "width", "depth", "breadth", "to", "rise", "drop", "slope", "front", "back",
}  # fmt: skip


def girth_term(name: str) -> str:
    """The girth that a measurement's name means: 'upper arm' for upper_arm_left; '' for none."""
    words = name.split("_")
    if _NOT_GIRTHS & set(words):
        return ""
    terms = dict.fromkeys(term for pair in SMALLER_THAN for term in pair)
    # The longest first: a name that says "upper arm" must not be taken for a shorter term in it.
    for term in sorted(terms, key=len, reverse=True):
        if set(term.split()) <= set(words):
            return term
    return next((term for word, term in _SAME_GIRTH.items() if word in words), "")


def doubt_body(file: GuideFile, body: Mapping[str, float]) -> list[Doubt]:
    """All that is missing, unknown, implausible or far outside the sizes, in the guide's order."""
    order = {name: number for number, name in enumerate(file.guide.measurements)}
    limits = list(_out_of_limits(file, body))
    told = {doubt.measurement for doubt in limits}
    doubts = [
        *_missing_and_unknown(file, body),
        *limits,
        # Who gave inches is told so once, not also that nobody is 30 mm around.
        *(doubt for doubt in _far_outside(file, body) if doubt.measurement not in told),
        *_wrong_way_round(file, body),
    ]
    # Names that the guide does not have come first: they explain what is missing.
    return sorted(doubts, key=lambda d: (order.get(d.measurement, -1), not d.stops))


def measure_again(file: GuideFile, body: Mapping[str, float]) -> str:
    """What to do about a doubtful figure; who lies outside the sizes as a whole is told so."""
    table = size_table(file)
    below = above = known = 0
    for name in file.guide.measurements:
        values = [row[name] for row in table.values() if name in row]
        if values and name in body:
            known += 1
            below += body[name] < min(values)
            above += body[name] > max(values)
    # More than half of all: one that is off may be a slip of the tape, most of them are a child.
    if known and max(below, above) * 2 > known:
        who = (
            f"{below} of {known} measurements are below the smallest size, as those of a child are"
            if below > above
            else f"{above} of {known} measurements are above the largest size"
        )
        return (
            f"{who}: nobody has tried the fit there; add --sure to make it all the same, try every "
            "piece in card first, and leave out what does not fit"
        )
    return "measure again; if it is right, add --sure"


def _one_side(name: str, known: Collection[str]) -> str:
    """The measurement that 'wrist_left' is one side of; '' where it is none."""
    words = name.split("_")
    plain = "_".join(word for word in words if word not in {"left", "right"})
    return plain if plain != name and plain in known else ""


def _missing_and_unknown(file: GuideFile, body: Mapping[str, float]) -> Iterator[Doubt]:
    known = file.guide.measurements
    for name in body:
        if name not in known:
            message = f'this guide has no measurement "{name}"{did_you_mean(name, known)}'
            both = _one_side(name, known)
            if both:
                message = (
                    f"this guide takes one {known[both].name} for both sides: give the larger as "
                    f"{both}. Where left and right differ by more than 10 mm, make the guide "
                    "twice, once with the figures of each side, and take the left pieces of one "
                    "and the right ones of the other"
                )
            yield Doubt(name, message, stops=True)
    for name, measurement in known.items():
        if name not in body:
            yield Doubt(name, f"{measurement.name} is missing", stops=True)
        elif not isfinite(body[name]) or body[name] <= 0:
            yield Doubt(name, f"{measurement.name} has to be more than 0", stops=True)


def _out_of_limits(file: GuideFile, body: Mapping[str, float]) -> Iterator[Doubt]:
    """Outside what the guide calls plausible; a wrong unit is named."""
    for name, measurement in file.guide.measurements.items():
        value = body.get(name)
        if value is None or value <= 0:
            continue
        least, most = measurement.limits()
        if least is not None and value < least:
            hint = _unit_hint(value, least, most)
            words = f"{mm_text(value)} mm is less than {mm_text(least)} mm{hint}"
            yield Doubt(name, f"{measurement.name}: {words}")
        elif most is not None and value > most:
            words = f"{mm_text(value)} mm is more than {mm_text(most)} mm"
            yield Doubt(name, f"{measurement.name}: {words}; please measure again")


def _unit_hint(value: float, least: float, most: float | None) -> str:
    """A guess at the unit of a figure that is far too small."""
    for unit, factor in (("cm", 10.0), ("inches", MM_PER_INCH)):
        if least <= value * factor <= (most if most is not None else 2 * least):
            return f"; is it in {unit}? Then it is {mm_text(value * factor)} mm"
    return "; please measure again"


def _far_outside(file: GuideFile, body: Mapping[str, float]) -> Iterator[Doubt]:
    table = size_table(file)
    steps = size_steps(table)
    for name, measurement in file.guide.measurements.items():
        values = [row[name] for row in table.values() if name in row]
        value = body.get(name)
        if value is None or value <= 0 or not values:
            continue
        if value > max(values) + FAR_OUTSIDE * steps[name]:
            off, end = value - max(values), "above the largest"
        elif value < min(values) - FAR_OUTSIDE * steps[name]:
            off, end = min(values) - value, "below the smallest"
        else:
            continue
        message = f"{measurement.name}: {mm_text(value)} mm is {mm_text(off)} mm {end} size"
        yield Doubt(name, f"{message}; the fit of that part was never tried")


def _wrong_way_round(file: GuideFile, body: Mapping[str, float]) -> Iterator[Doubt]:
    """Girths that are larger than one which they never exceed."""
    terms: dict[str, list[str]] = {}
    for name in file.guide.measurements:
        if body.get(name, 0) > 0 and girth_term(name):
            terms.setdefault(girth_term(name), []).append(name)
    for small, large in SMALLER_THAN:
        for one in terms.get(small, ()):
            for other in terms.get(large, ()):
                if body[one] >= body[other]:
                    names = [file.guide.measurements[n].name for n in (one, other)]
                    yield Doubt(
                        one,
                        f"{names[0]} ({mm_text(body[one])} mm) is not smaller than {names[1]} "
                        f"({mm_text(body[other])} mm); please measure both again",
                    )
