"""How long planning takes.

    python -m tests.benchmarks.cutting_speed --jobs 100

All layers (three) of jobs of three, eight and twelve sections, sixteenths of an inch, 54 in cloth: the plan that comes
at once and the share of it proven least, and the share proven once it is improved off the keystroke's path for half a
second at most.
"""

from __future__ import annotations

import time
from functools import partial
from random import Random

from msgspec.structs import replace

from tests.benchmarks.measuring import options, seconds, spread
from wizard.trade.cut_plans import EFFORTS, settled
from wizard.trade.cutting import Cutting, Rules, Stretch, Strip, lay_out
from wizard.trade.lengths import Length

LAYERS = (0, 24, 40)
"""How much shorter each layer's cuts are, in ticks."""
HALF = 0.5
"""Seconds an improved plan may take."""
MARK = Length(1) / 16
RULES = Rules(join_cost=Length(1), least_piece=Length(6), mark=MARK, squaring=Length(1), step=Length(9) / 2)
ROLL = Stretch("roll", None, Length(54))


def job(random: Random, sections: int) -> list[list[Strip]]:
    """Sections of 30 to 200 in flat, two or three different drops, in three layers."""
    cuts = [random.randint(160, 240) for _ in range(random.choice([1, 2, 3]))]
    sizes = [(random.randint(480, 3200), random.choice(cuts)) for _ in range(sections)]
    return [
        [Strip(f"s{n}", f"s{n}", str(less), MARK * flat, MARK * (cut - less)) for n, (flat, cut) in enumerate(sizes)]
        for less in LAYERS
    ]


def planned(layers: list[list[Strip]]) -> bool:
    """Plan every layer; True when all are proven least."""
    answers = [lay_out(strips, [ROLL], RULES) for strips in layers]
    return all(isinstance(each, Cutting) and each.best.proof.least for each in answers)


def proven_within(layers: list[list[Strip]], longest: float) -> bool:
    """True when every layer is proven, cloth and joins, by the first plan or by improving it in this time."""
    start, open_layers = time.perf_counter(), layers
    for effort in (RULES.effort, *EFFORTS):
        answers = [(strips, lay_out(strips, [ROLL], replace(RULES, effort=effort))) for strips in open_layers]
        open_layers = [strips for strips, each in answers if not (isinstance(each, Cutting) and settled(each))]
        if not open_layers or time.perf_counter() - start > longest:
            break
    return not open_layers and time.perf_counter() - start <= longest


def main() -> None:
    """Measure and print."""
    asked = options(__doc__, jobs=100)
    for sections in (3, 8, 12):
        jobs = [job(Random(f"{sections} {n}"), sections) for n in range(asked.jobs)]
        planned(jobs[0])
        took = [seconds(partial(planned, each), 1) * 1000 for each in jobs]
        least, improved = sum(map(planned, jobs)), sum(proven_within(each, HALF) for each in jobs)
        print(f"{sections} sections, three layers: milliseconds {spread(took)}")
        print(f"  of {len(jobs)} proven least at once {least}, cloth and joins within half a second {improved}")


if __name__ == "__main__":
    main()
