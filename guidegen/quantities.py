"""Quantities in → the words for them, the same on a page, in a drawing, a booklet and a table.

So far durations. Who writes a quantity asks here; nobody else knows where hours end and days begin.
"""

from guidegen.words import SPACE, Words


def duration_words(minutes: float, words: Words) -> str:
    """'25 min', '1 h 30 min', '2 d 4 h'; days of 24 hours, minutes left out beside days."""
    whole = round(minutes)
    days, rest = divmod(whole, 1440)
    hours, left = divmod(rest, 60)
    if days:
        hours += left >= 30
        if hours == 24:
            days, hours = days + 1, 0
        left = 0
    return _time(days, hours, left, words)


def work_words(minutes: float, words: Words) -> str:
    """Hands-on time, in hours however many: '48 h', since nobody works 24 hours a day.

    Minutes are left out from ten hours on.
    """
    hours, left = divmod(round(minutes), 60)
    if hours >= 10:
        hours, left = hours + (left >= 30), 0
    return _time(0, hours, left, words)


def calendar_words(days: int, minutes: float, words: Words) -> str:
    """'12 days' from start to end; within one day the time itself, '4 h 20 min'."""
    if days < 2:
        return duration_words(minutes, words)
    return words.many("{n} day", "{n} days", days).replace(" ", SPACE)


def work_days_words(evenings: int, free_days: int, words: Words) -> str:
    """'8 evenings and 4 free days'; empty where there is neither."""
    parts = [
        words.many("{n} evening", "{n} evenings", evenings) if evenings else "",
        words.many("{n} free day", "{n} free days", free_days) if free_days else "",
    ]
    return words.listed([part for part in parts if part])


def hours_words(evening: float, free_day: float, words: Words) -> str:
    """'3 h an evening, 7 h a free day': minutes of work in, only those that are above zero."""
    parts = [
        words.say("{time} an evening", time=duration_words(evening, words)) if evening else "",
        words.say("{time} a free day", time=duration_words(free_day, words)) if free_day else "",
    ]
    return ", ".join(part for part in parts if part)


def _time(days: int, hours: int, minutes: int, words: Words) -> str:
    parts = [
        words.say("{number} d", number=days) if days else "",
        words.say("{number} h", number=hours) if hours else "",
        words.say("{number} min", number=minutes) if minutes or not (days or hours) else "",
    ]
    return " ".join(part.replace(" ", SPACE) for part in parts if part)
