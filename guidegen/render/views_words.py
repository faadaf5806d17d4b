"""Numbers in → the words that readers see: times, lengths, amounts, prices, file sizes."""

from guidegen.units import inch_text, mm_text

_SYMBOLS = {"EUR": "€", "USD": "$", "GBP": "£"}
"""Signs that readers know better than the ISO 4217 code."""

SPACE = "\u00a0"
"""Space between a number and its unit (ISO 80000-1, 7.1.4), where no line breaks."""


def duration_words(minutes: float) -> str:
    """'25 min', '1 h 30 min', '2 d 4 h'; days of 24 hours, minutes left out beside days."""
    whole = round(minutes)
    days, rest = divmod(whole, 1440)
    hours, left = divmod(rest, 60)
    if days:
        hours += left >= 30
        if hours == 24:
            days, hours = days + 1, 0
        parts = [(days, "d"), (hours, "h")]
    else:
        parts = [(hours, "h"), (left, "min")]
    words = [f"{number}{SPACE}{unit}" for number, unit in parts if number]
    return " ".join(words) or f"0{SPACE}min"


def work_words(minutes: float) -> str:
    """Hands-on time, in hours however many: '48 h', since nobody works 24 hours a day.

    Minutes are left out from ten hours on.
    """
    hours, left = divmod(round(minutes), 60)
    if hours >= 10:
        hours, left = hours + (left >= 30), 0
    parts = [(hours, "h"), (left, "min")]
    words = [f"{number}{SPACE}{unit}" for number, unit in parts if number]
    return " ".join(words) or f"0{SPACE}min"


def length_words(mm: float) -> str:
    """'340 mm'; half millimetres are kept, since bevels and grooves need them."""
    return f"{mm_text(mm, 0 if mm >= 100 else 1)}{SPACE}mm"


def inch_words(mm: float) -> str:
    """'13 3/8 in'."""
    return f"{inch_text(mm)}{SPACE}in"


def long_words(mm: float) -> str:
    """A length to buy: metres from one metre on."""
    if mm < 1000:
        return length_words(mm)
    return f"{mm_text(mm / 1000, 2)}{SPACE}m"


def area_words(mm2: float) -> str:
    """'0.62 m²'; square centimetres below a hundredth of that."""
    if mm2 < 10_000:
        return f"{mm_text(mm2 / 100)}{SPACE}cm²"
    return f"{mm_text(mm2 / 1_000_000, 2 if mm2 >= 100_000 else 3)}{SPACE}m²"


def amount_words(amount: float, unit: str) -> str:
    """An amount of a material: 'ml' turns to litres, 'mm' to metres where that reads better."""
    if unit == "ml":
        if amount >= 1000:
            return f"{mm_text(amount / 1000, 2)}{SPACE}l"
        return f"{_figures(amount)}{SPACE}ml"
    if unit == "mm":
        return long_words(amount)
    if unit == "sheets":
        return _counted(amount, "sheet")
    if unit == "pieces":
        return _counted(amount, "piece")
    return f"{mm_text(amount, 1)}{SPACE}{unit}"


def _counted(amount: float, noun: str) -> str:
    number = mm_text(amount, 1)
    return f"{number}{SPACE}{noun}" if number == "1" else f"{number}{SPACE}{noun}s"


def _figures(amount: float) -> str:
    """Two significant figures below 100: a consumption is not known better."""
    return mm_text(amount, 0 if amount >= 10 else 1)


def money_words(price: float, currency: str) -> str:
    """'€ 43' from ten on, '€ 4.50' below: an estimate needs no more."""
    sign = _SYMBOLS.get(currency, currency)
    number = f"{price:.0f}" if price >= 10 or float(price).is_integer() else f"{price:.2f}"
    return f"{sign}{SPACE}{number}"


def money_range(low: float, high: float, currency: str) -> str:
    """'€ 43 to 51', or one figure where both round to the same."""
    first, last = money_words(low, currency), money_words(high, currency)
    return first if first == last else f"{first} to {last.partition(SPACE)[2]}"


def file_size_words(size: int) -> str:
    """'840 kB', '1.4 MB'; a kilobyte is 1000 bytes (IEC 80000-13)."""
    if size < 1_000_000:
        return f"{max(1, round(size / 1000))}{SPACE}kB"
    return f"{mm_text(size / 1_000_000, 1)}{SPACE}MB"


def count_words(number: int, noun: str, plural: str = "") -> str:
    """'1 page', '12 pages'."""
    return f"{number}{SPACE}{noun if number == 1 else plural or noun + 's'}"


def times_words(number: int) -> str:
    """'once', 'twice', '7 times'."""
    return {1: "once", 2: "twice"}.get(number) or count_words(number, "time")


def weight_words(grams: float) -> str:
    """'640 g', '1.3 kg'."""
    if grams < 1000:
        return f"{round(grams, -1):.0f}{SPACE}g"
    return f"{mm_text(grams / 1000, 1)}{SPACE}kg"


def capital(words: str) -> str:
    """Words with a capital first letter."""
    return words[:1].upper() + words[1:]
