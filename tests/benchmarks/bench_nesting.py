"""How near cut plans come to the bound that no plan can beat, by budget.

    python tests/benchmarks/bench_nesting.py [seconds …]

Invented kits of 36 pieces, on one size of sheet and on three sizes with different prices. 'above
bound' is the price over the least price that the area of the pieces allows: a gap of nothing is a
proof, any other gap may be the bound's and not the plan's.
"""

import sys
import time
from statistics import mean

from layout.nest_samples import CRAFT, MAT, WIDE, foam_kit, sheet_material, stock_of

from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.records import CutPlan

SEEDS = (1, 2, 3, 4)
STOCKS = {
    "one size": stock_of(sheet_material(MAT)),
    "three sizes": stock_of(sheet_material(MAT, CRAFT, WIDE)),
}


def measure(stock: str, seconds: float) -> tuple[list[CutPlan], float]:
    """A plan for every kit, and the seconds that they took on average."""
    start = time.perf_counter()
    plans = [
        plan
        for seed in SEEDS
        for plan in plan_cuts(foam_kit(seed), STOCKS[stock], seconds=seconds, solve=seconds > 0)[0]
    ]
    return plans, (time.perf_counter() - start) / len(SEEDS)


def main() -> None:
    """Print a line for each stock and budget."""
    budgets = [float(text) for text in sys.argv[1:]] or [0.0, 1.0, 4.0]
    print(f"{'sheets':12} {'budget':>7} {'took':>7} {'above bound':>12} {'foam used':>10}  prices")
    for stock in STOCKS:
        for seconds in budgets:
            plans, took = measure(stock, seconds)
            above = mean(plan.cost / plan.least_cost - 1 for plan in plans)
            used = mean(plan.used for plan in plans)
            prices = ", ".join(f"{plan.cost:g}" for plan in plans)
            print(
                f"{stock:12} {seconds:6.1f}s {took:6.1f}s {above:12.1%} {used:10.1%}  {prices}",
                flush=True,
            )


if __name__ == "__main__":
    main()
