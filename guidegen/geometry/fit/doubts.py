"""A body's measurements and a guide in → what to measure again before anything is cut."""

from collections.abc import Collection, Iterator, Mapping
from math import isfinite

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.fit.advice import size_steps, size_table
from guidegen.geometry.fit.records import Doubt
from guidegen.problems import did_you_mean
from guidegen.units import MM_PER_INCH
from guidegen.words import ENGLISH, Words, msg

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


def doubt_body(file: GuideFile, body: Mapping[str, float], words: Words = ENGLISH) -> list[Doubt]:
    """All that is missing, unknown, implausible or far outside the sizes, in the guide's order."""
    order = {name: number for number, name in enumerate(file.guide.measurements)}
    limits = list(_out_of_limits(file, body, words))
    told = {doubt.measurement for doubt in limits}
    doubts = [
        *_missing_and_unknown(file, body, words),
        *limits,
        # Who gave inches is told so once, not also that nobody is 30 mm around.
        *(doubt for doubt in _far_outside(file, body, words) if doubt.measurement not in told),
        *_wrong_way_round(file, body, words),
        *(doubt for doubt in _not_far(file, body, words) if doubt.measurement not in told),
    ]
    # Names that the guide does not have come first: they explain what is missing.
    return sorted(doubts, key=lambda d: (order.get(d.measurement, -1), not d.stops))


ADD_SURE = msg("add --sure")
"""How one insists on the command line."""

TICK_SURE = msg("tick “I have measured again”")
"""How one insists on a page."""


def measure_again(
    file: GuideFile, body: Mapping[str, float], words: Words = ENGLISH, insist: str = ADD_SURE
) -> str:
    """What to do about a doubtful figure; who lies outside the sizes as a whole is told so.

    `insist` is how one says that the figures are right.
    """
    table = size_table(file)
    below = above = known = 0
    for name in file.guide.measurements:
        values = [row[name] for row in table.values() if name in row]
        if values and name in body:
            known += 1
            below += body[name] < min(values)
            above += body[name] > max(values)
    how = words.say(insist)
    # More than half of all: one that is off may be a slip of the tape, most of them are a child.
    if known and max(below, above) * 2 > known:
        who = (
            words.say(
                "{count} of {all} measurements are below the smallest size, as those of a "
                "child are",
                count=below,
                all=known,
            )
            if below > above
            else words.say(
                "{count} of {all} measurements are above the largest size", count=above, all=known
            )
        )
        return words.say(
            "{who}: nobody has tried the fit there; {insist} to make it all the same, try every "
            "piece in card first, and leave out what does not fit",
            who=who,
            insist=how,
        )
    return words.say("measure again; if it is right, {insist}", insist=how)


def _one_side(name: str, known: Collection[str]) -> str:
    """The measurement that 'wrist_left' is one side of; '' where it is none."""
    words = name.split("_")
    plain = "_".join(word for word in words if word not in {"left", "right"})
    return plain if plain != name and plain in known else ""


def _missing_and_unknown(
    file: GuideFile, body: Mapping[str, float], words: Words
) -> Iterator[Doubt]:
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
            message = words.say("{measurement} is missing", measurement=measurement.name)
            yield Doubt(name, message, stops=True)
        elif not isfinite(body[name]) or body[name] <= 0:
            message = words.say("{measurement} has to be more than 0", measurement=measurement.name)
            yield Doubt(name, message, stops=True)


def _out_of_limits(file: GuideFile, body: Mapping[str, float], words: Words) -> Iterator[Doubt]:
    """Outside what the guide calls plausible; a wrong unit is named."""
    for name, measurement in file.guide.measurements.items():
        value = body.get(name)
        if value is None or value <= 0:
            continue
        least, most = measurement.limits()
        said = {"measurement": measurement.name, "value": words.number(value)}
        if least is not None and value < least:
            guess = _unit_guess(value, least, most)
            if guess:
                unit, mm = guess
                message = words.say(
                    "{measurement}: {value} mm is less than {least} mm; is it in {unit}? "
                    "Then it is {mm} mm",
                    **said,
                    least=words.number(least),
                    unit=words.say(unit),
                    mm=words.number(mm),
                )
            else:
                message = words.say(
                    "{measurement}: {value} mm is less than {least} mm; please measure again",
                    **said,
                    least=words.number(least),
                )
            yield Doubt(name, message)
        elif most is not None and value > most:
            message = words.say(
                "{measurement}: {value} mm is more than {most} mm; please measure again",
                **said,
                most=words.number(most),
            )
            yield Doubt(name, message)


def _unit_guess(value: float, least: float, most: float | None) -> tuple[str, float] | None:
    """A guess at the unit of a figure that is far too small, and its mm."""
    for unit, factor in ((msg("cm"), 10.0), (msg("inches"), MM_PER_INCH)):
        if least <= value * factor <= (most if most is not None else 2 * least):
            return unit, value * factor
    return None


def _far_outside(file: GuideFile, body: Mapping[str, float], words: Words) -> Iterator[Doubt]:
    table = size_table(file)
    steps = size_steps(table)
    for name, measurement in file.guide.measurements.items():
        values = [row[name] for row in table.values() if name in row]
        value = body.get(name)
        if value is None or value <= 0 or not values:
            continue
        if value > max(values) + FAR_OUTSIDE * steps[name]:
            off = value - max(values)
            said = msg(
                "{measurement}: {value} mm is {off} mm above the largest size; the fit of that "
                "part was never tried"
            )
        elif value < min(values) - FAR_OUTSIDE * steps[name]:
            off = min(values) - value
            said = msg(
                "{measurement}: {value} mm is {off} mm below the smallest size; the fit of that "
                "part was never tried"
            )
        else:
            continue
        figures = {"value": words.number(value), "off": words.number(off)}
        yield Doubt(name, words.say(said, measurement=measurement.name, **figures))


def _not_far(file: GuideFile, body: Mapping[str, float], words: Words) -> Iterator[Doubt]:
    """Measurements beyond the sizes, where the author names parts that may not be graded far."""
    names = [
        file.guide.parts[part].name
        for part in file.guide.made_to_measure.within_sizes
        if part in file.guide.parts
    ]
    table = size_table(file)
    for name, measurement in file.guide.measurements.items() if names else ():
        values = [row[name] for row in table.values() if name in row]
        value = body.get(name)
        if value is None or not values or min(values) <= value <= max(values):
            continue
        message = words.say(
            "{measurement}: {value} mm is beyond the sizes, and the author asks that these pieces "
            "be made within them: {pieces}",
            measurement=measurement.name,
            value=words.number(value),
            pieces=words.listed(names),
        )
        yield Doubt(name, message)


def _wrong_way_round(file: GuideFile, body: Mapping[str, float], words: Words) -> Iterator[Doubt]:
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
                    message = words.say(
                        "{small} ({small_mm} mm) is not smaller than {large} ({large_mm} mm); "
                        "please measure both again",
                        small=names[0],
                        small_mm=words.number(body[one]),
                        large=names[1],
                        large_mm=words.number(body[other]),
                    )
                    yield Doubt(one, message)
