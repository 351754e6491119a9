"""Whether the sums are as honest as mechanics says: `.venv/bin/python -m tests.speed.coverage [PART ...] [--runs N]`.

Each part prints a table in Markdown: every measured line of the design found again on invented cords or classes, with
fixed seeds; at the end a table with one line a figure. The exit status is 1 when a line differs and no reason is told.
"""

import argparse
import sys
import time
from collections.abc import Sequence

from tests.speed import bend_claims, break_claims, difference_claims, return_claims, straight_claims
from tests.speed.claims import Claim, Figure, digest, table

RUNS = 1000


PARTS: dict[str, Sequence[Figure]] = {
    "straight": straight_claims.STRAIGHT,
    "toe": straight_claims.TOES,
    "bend": bend_claims.BENDS,
    "limit": bend_claims.LIMITS,
    "doubling": bend_claims.DOUBLING,
    "zero": bend_claims.ZEROS,
    "set": return_claims.SETS,
    "elastic": return_claims.ELASTIC,
    "work": return_claims.WORK,
    "break": break_claims.BREAKING,
    "instead": break_claims.INSTEAD,
    "pair": break_claims.PAIRS,
    "ratio": break_claims.RATIOS,
    "different": difference_claims.DIFFERENT,
    "power": difference_claims.POWER_FOUND,
    "habit": difference_claims.SCHOOL_HABIT,
    "agreement": difference_claims.AGREEMENT,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """The tables are printed; 1 when a line differs and no reason is told."""
    asked = argparse.ArgumentParser(prog="python -m tests.speed.coverage", description=__doc__)
    asked.add_argument("part", nargs="*", choices=[*PARTS, []], help="all parts unless some are named")
    asked.add_argument("--runs", type=int, default=RUNS, help=f"cords or classes a case ({RUNS})")
    told = asked.parse_args(arguments)
    claims = [claim for part in told.part or PARTS for claim in _printed(part, told.runs)]
    agree, unexplained = (sum(flags) for flags in zip(*((one.agrees, one.is_open) for one in claims), strict=True))
    told_why = len(claims) - agree - unexplained
    print(f"## In short: {told.runs:,} a case\n\n{digest(claims)}")
    print(f"{agree} of {len(claims)} lines agree, {told_why} differ for a reason that is told.")
    return 1 if unexplained else 0


def _printed(part: str, runs: int) -> list[Claim]:
    begun = time.process_time()
    claims = [line.claim(runs) for line in PARTS[part]]
    print(f"## {part}: {runs:,} a case, {time.process_time() - begun:.0f} s\n\n{table(claims)}", flush=True)
    return claims


if __name__ == "__main__":
    sys.exit(main())
