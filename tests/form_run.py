"""Flattens every hostile mesh; run as a program of its own.

It prints JSON: by case, how it ended ("refused", "read" or an exception), the words and the seconds.
"""

from bounded_cases import Ended, print_ends
from form_cases import FormCase, cases

from guidegen.bench.forms.flatten import flatten
from guidegen.bench.forms.records import FormError, FormWishes


def end(case: FormCase) -> Ended:
    """How one case ends."""
    try:
        found = flatten(case.data, f"content/{case.name}", FormWishes("mm"))
    except FormError as error:
        return {"ended": "refused", "words": str(error)}
    return {"ended": "read", "words": "\n".join(found.notes)}


if __name__ == "__main__":
    print_ends(cases(), end, seconds=8, memory=3 << 29)
