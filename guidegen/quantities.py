"""Quantities in → the words for them, the same on a page, in a drawing, a booklet and a table.

Times, lengths, areas, amounts, weights, prices, counts and file sizes. Who writes a quantity for a
reader asks here; nobody else knows where hours end and days begin, or metres and litres.
"""

from html import escape
from typing import Self

from guidegen.units import inch_text, mm_text
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


def exact_words(minutes: float) -> str:
    """'45 min', '1 d 4 h 5 min', 'no time': to the minute, in English, for authors."""
    days, rest = divmod(round(minutes), 1440)
    hours, rest = divmod(rest, 60)
    parts = [f"{n} {unit}" for n, unit in ((days, "d"), (hours, "h"), (rest, "min")) if n]
    return " ".join(parts) or "no time"


def tick_words(minutes: float, words: Words) -> str:
    """A time in few letters, for an axis: '40 min', '5 h', '26 h', '3 d'."""
    if minutes < 60:
        return words.say("{number} min", number=round(minutes))
    hours = minutes / 60
    if hours < 72:
        return words.say("{number} h", number=words.number(hours, 1 if hours < 10 else 0))
    return words.say("{number} d", number=words.number(hours / 24, 1))


def clock_words(minutes: float) -> str:
    """'1:05': hours and minutes from the start."""
    hours, rest = divmod(round(minutes), 60)
    return f"{hours}:{rest:02}"


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


class Length(str):
    """A length in words that keeps its value on a page, so that a script can show other units.

    Put into a page by itself it is a span with data-mm; within other words it is plain text.
    """

    __slots__ = ("mm",)

    mm: float
    """The exact length in mm."""

    def __new__(cls, words: str, mm: float) -> Self:
        """Words and value of one length."""
        made = super().__new__(cls, words)
        made.mm = mm
        return made

    def __html__(self) -> str:
        """What a template prints (MarkupSafe)."""
        value = mm_text(self.mm, 3)
        return f'<span class="length" data-mm="{value}">{escape(str(self))}</span>'


def length_words(mm: float, words: Words) -> str:
    """'340 mm'; half millimetres are kept, since bevels and grooves need them."""
    return Length(f"{words.number(mm, 0 if mm >= 100 else 1)}{SPACE}mm", mm)


def inch_words(mm: float, words: Words) -> str:
    """'13 3/8 in'."""
    return f"{inch_text(mm)}{SPACE}{words.within('inches', 'in')}"


def long_words(mm: float, words: Words) -> str:
    """A length to buy: metres from one metre on."""
    if mm < 1000:
        return length_words(mm, words)
    return Length(f"{words.number(mm / 1000, 2)}{SPACE}m", mm)


def area_words(mm2: float, words: Words) -> str:
    """'0.62 m²'; square centimetres below a hundredth of that."""
    if mm2 < 10_000:
        return f"{words.number(mm2 / 100)}{SPACE}cm²"
    return f"{words.number(mm2 / 1_000_000, 2 if mm2 >= 100_000 else 3)}{SPACE}m²"


def amount_words(amount: float, unit: str, words: Words) -> str:
    """An amount of a material: 'ml' turns to litres, 'mm' to metres where that reads better."""
    if unit == "ml":
        if amount >= 1000:
            return f"{words.number(amount / 1000, 2)}{SPACE}l"
        # Two significant figures below 100: a consumption is not known better.
        return f"{words.number(amount, 0 if amount >= 10 else 1)}{SPACE}ml"
    if unit == "mm":
        return long_words(amount, words)
    rounded = round(amount, 1)
    if unit == "sheets":
        return words.many("{n} sheet", "{n} sheets", rounded)
    if unit == "pieces":
        return words.many("{n} piece", "{n} pieces", rounded)
    return f"{words.number(amount, 1)}{SPACE}{unit}"


def money_words(price: float, currency: str, words: Words) -> str:
    """'€43', '€16.50', as CLDR writes prices."""
    return words.money(price, currency)


def spent_words(price: float, unpriced: int, currency: str, words: Words) -> str:
    """'€12.50', and how many things are not in it since nobody has looked up their price."""
    money = money_words(price, currency, words) if price or not unpriced else ""
    return with_unpriced(money, unpriced, words)


def with_unpriced(money: str, unpriced: int, words: Words) -> str:
    """A sum of money in words, perhaps empty, with the count of things that it does not hold."""
    if not unpriced:
        return money
    things = words.many("{n} thing without a price", "{n} things without a price", unpriced)
    return words.say("{money} and {things}", money=money, things=things) if money else things


def money_range(low: float, high: float, currency: str, words: Words) -> str:
    """'€43 to €51.50', or one figure where both are the same."""
    first, last = money_words(low, currency, words), money_words(high, currency, words)
    return first if first == last else words.say("{first} to {last}", first=first, last=last)


def file_size_words(size: int, words: Words) -> str:
    """'840 kB', '1.4 MB'; a kilobyte is 1000 bytes (IEC 80000-13)."""
    if size < 1_000_000:
        return f"{max(1, round(size / 1000))}{SPACE}kB"
    return f"{words.number(size / 1_000_000, 1)}{SPACE}MB"


def times_words(number: int, words: Words) -> str:
    """'once', 'twice', '7 times'."""
    known = {1: words.say("once"), 2: words.say("twice")}
    return known.get(number) or words.many("{n} time", "{n} times", number)


def weight_words(grams: float, words: Words) -> str:
    """'640 g', '1.3 kg'."""
    if grams < 1000:
        return f"{round(grams, -1):.0f}{SPACE}g"
    return f"{words.number(grams / 1000, 1)}{SPACE}kg"


def capital(words: str) -> str:
    """Words with a capital first letter."""
    return words[:1].upper() + words[1:]


def ohm_words(ohms: float, words: Words) -> str:
    """'150 Ω', '1.2 kΩ'."""
    if ohms >= 1000:
        return f"{words.number(ohms / 1000, 2)}{SPACE}kΩ"
    return f"{words.number(ohms, 1)}{SPACE}Ω"
