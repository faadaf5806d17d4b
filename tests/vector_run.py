"""Reads every hostile PDF and DXF; run as a program of its own.

It prints JSON: by case, how it ended ("refused", "read" or an exception), the words and the seconds.
"""

from bounded_cases import Ended, print_ends
from vector_cases import VectorCase, cases

from guidegen.bench.vectors.records import VectorError
from guidegen.bench.vectors.redraw import Wishes, redraw


def end(case: VectorCase) -> Ended:
    """How one case ends."""
    try:
        drawn = redraw(case.data, "content/a", "content/a.svg", Wishes())
    except VectorError as error:
        return {"ended": "refused", "words": str(error)}
    return {"ended": "read", "words": drawn.svg[:200]}


if __name__ == "__main__":
    print_ends(cases(), end, seconds=5, memory=1 << 30)
