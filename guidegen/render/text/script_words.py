"""Words of a language → what the scripts of a page say, as data that the page holds for them."""

import json
from functools import lru_cache

from guidegen.words import Words, msg, msgs

SCRIPT_WORDS: dict[str, str | tuple[str, str]] = {
    "done": msg("Done"),
    "have": msg("I have it: {material}"),
    "have-left": msg("{amount} left over"),
    "have-wrong": msg("Only an amount: digits, with one point or comma, no words and no minus"),
    "have-enough": msg("enough at hand"),
    "have-sum": msg("With what you have: {cost} to pay instead of {whole}"),
    "changed": msg("Changed since you ticked them: steps"),
    "enlarge": msg("Enlarge: {drawing}"),
    "zoom-in": msg("Larger"),
    "zoom-out": msg("Smaller"),
    "zoom-all": msg("Whole drawing"),
    "zoom-close": msg("Close"),
    "progress-saved": msg("Saved as {file}, among your downloads."),
    "progress-wrong": msg("This is no progress file of this guide."),
    "guides-shown": msgs("{left} of {count} guide", "{left} of {count} guides"),
    "places-found": msgs("{count} place found for “{words}”", "{count} places found for “{words}”"),
    "fits": msg("fits"),
    "more": msg("{length} more than the size ({share} of a size step)"),
    "less": msg("{length} less than the size ({share} of a size step)"),
    "odd": msg("Please measure again: between {least} and {most} would be usual."),
    "too-small": msg("{length} too small in size {size}: it does not close."),
    "your-size": msg("Your size:"),
    "timer-start": msg("Start the timer"),
    "timer-stop": msg("Stop the timer"),
    "timer-back": msg("Put the timer back"),
    "wait-over": msg("The wait of step {number} is over"),
    "step-over": msg("Step {number}: wait over"),
    "step-left": msg("Step {number}: {time}"),
    "step-of": msg("{number} of {count}"),
    "before-step": msg("Before step {number}"),
}
"""By the name that a script asks with: say("done"). Two texts are one for each plural form, which
{count} chooses."""


def script_words(words: Words) -> str:
    """JSON by name."""
    said = tuple((key, _said(words, text)) for key, text in SCRIPT_WORDS.items())
    return _text((("inch", words.within("inches", "in")), *said))


type Forms = tuple[tuple[str, str], ...]


def _said(words: Words, text: str | tuple[str, str]) -> str | Forms:
    if isinstance(text, str):
        return words.say_as_it_is(text)
    return tuple(words.forms(*text).items())


@lru_cache(maxsize=16)
def _text(said: tuple[tuple[str, str | Forms], ...]) -> str:
    plain = {key: text if isinstance(text, str) else dict(text) for key, text in said}
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))
