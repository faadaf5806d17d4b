"""What an author says must fit → where in some size it does not."""

from guidegen.geometry.fastening.asker import Holding
from guidegen.units import mm_text

NEAR = 1e-6
"""A number that is nearer to its limit keeps it: rounding alone breaks nothing."""


def audit_fits(holding: Holding) -> None:
    """Note every fit of the guide that does not hold in this size."""
    for name, fit in holding.file.guide.fits.items():
        value = holding.asked(fit.value, "fits", name, "value")
        if value is None:
            continue
        for key, limit, sign in (("least", fit.least, 1), ("most", fit.most, -1)):
            if limit is None:
                continue
            bound = holding.number(limit, "fits", name, key)
            if bound is not None and sign * (value - bound) < -NEAR:
                word = "at least" if sign > 0 else "at most"
                message = (
                    f"{fit.says}: {fit.value} is {mm_text(value, 2)}, "
                    f"expected {word} {mm_text(bound, 2)}"
                )
                holding.refuse("does-not-fit", message, "fits", name, "value")
