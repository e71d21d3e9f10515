"""The cutting plan: how the strips of a skirt are cut from cloth. `lay_out` is the only way in.

**The problem.** A strip is one layer of one section: so wide when flat, so long when cut. Strips are cut across the
cloth in *widths* (rows from selvedge to selvedge). A strip that is wider than the cloth is joined from pieces, and each
join costs cut width. A width may hold pieces of several strips and is as long as its longest piece. The best plan buys
least, then uses least of the cloth in hand, then has the fewest joins; no piece is narrower than the least piece, and
no join lies in a span where none may. This is a cutting-stock problem whose items may be split at a price.

**Grid units** (`grid_units`). All lengths become whole numbers of a unit in which the ruler mark and the cost of a join
are both whole. Nothing is rounded after that, and no float is used.

**Set partition** (`partition`, `pareto_partition`, `plan_by_length`). Strips that share widths form a connected group,
and groups are planned apart, so a plan is a partition of the strips into groups. The search starts with every group at
its lower bound, takes the best partition, plans those of its groups that are not planned yet, and repeats until all
groups of the best partition are planned: then nothing is shorter. Where widths have to be packed on several lengths of
cloth their sum says too little, so every plan that none beats in all counts is kept (a Pareto front). More strips than
can be searched at once are planned in batches, and all of them wrapped around from width to width besides.

**Lower bounds** (`lower_bounds`). Measured net of one join a piece, a group of `n` strips with net
width `a` takes at least `ceil((a + join * (n - 1)) / W)` widths of net width `W`. The longer strips of a group have
such a bound of their own, and a width is as long as its longest piece; added up over the cut lengths this bounds the
length.

**Branch and bound** (`connected_group`). Within a group the search branches over shapes: which strips have a piece in
each shared width, and how many widths each strip has to itself. It drops a branch as soon as its bound is no better
than a plan that is known. No piece width is guessed: a shape can be cut exactly when, for every set of strips, the
widths those reach give what those need.

**Flow** (`piece_widths`, `no_join_spans`). The pieces of a shape get their widths by a flow of cloth from widths to
strips, by shortest augmenting chains. Joins are kept out of spans by working out which places each join can reach.

**Cloth in hand** (`stock_groups`, `assign_stock`, `mixed_widths`). Widths are packed on the sound runs
of each length. Stretches of one width and dye lot form a stock group, and each strip is cut from one group where that
can be done; every way of sharing few strips out is tried, of many the most promising.

**Pattern, lanes, other layouts.** `pattern_match`, `pattern_level` and `pattern_plan` start each width where the
pattern meets. `railroaded` and `railroaded_runs` lay strips along the roll: the same search with the directions changed
and the length found by halving. `slit_stacked` tries layouts that a cross cut cannot give. `place_pieces` turns each
plan into pieces and offcuts that cover the cloth.

**Effort.** A search counts the nodes it visits (`Rules.effort`) and `work_budget` the work of everything, never time.
Numbers are exact and ties are broken by fixed orders, so the same job gives the same plan on every machine.

**What is proven.** `Proof.by` says how: the plan meets a lower bound, a finished search left nothing shorter, or the
policy (whole or half widths) leaves no choice. Otherwise `Proof.bound` states how much shorter a plan could be. Not
proven in general: more strips than are searched at once, plans that spans make longer, strips with pieces of several
usable widths, half-drops on several lengths, and slit or stacked layouts, which are shown only where they are shorter.
"""

from wizard.trade.cutting.cut_records import (
    Cutting,
    Layout,
    Offcut,
    Phase,
    Piece,
    Policy,
    Proof,
    Refusal,
    Repeat,
    Rules,
    Stretch,
    Strip,
    Surplus,
    Use,
)
from wizard.trade.cutting.lay_out import PurchaseBound, lay_out
from wizard.trade.cutting.pareto_partition import TOGETHER
from wizard.trade.cutting.pattern_match import printed_rules
from wizard.trade.cutting.place_pieces import as_cut, bought
from wizard.trade.cutting.work_budget import Spent, measured, remembered, spend, within

__all__ = [
    "TOGETHER", "Cutting", "Layout", "Offcut", "Phase", "Piece", "Policy", "Proof", "PurchaseBound", "Refusal",
    "Repeat", "Rules", "Spent", "Stretch", "Strip", "Surplus", "Use", "as_cut", "bought", "lay_out", "measured",
    "printed_rules", "remembered", "spend", "within",
]  # fmt: skip
