"""Findings: each is raised by what calls for it, says what is wrong and how to mend it, and goes once it is mended."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal
from fractions import Fraction
from string import Formatter
from typing import Any, NamedTuple

import pytest
from msgspec.structs import replace

from tests.trade.finding_texts import SENTENCES, WAYS_OUT, assert_says
from tests.trade.sample_jobs import (
    bed,
    cloth,
    everything,
    found,
    inches,
    known,
    plain_job,
    planned,
    section,
    small,
    straight,
    surveyed,
    with_face,
    with_section,
)
from wizard.project.project import Project, put_many
from wizard.render.drawings.bed_view import bed_view
from wizard.render.drawings.scene import Stroke
from wizard.render.drawings.sketch import PageSketch
from wizard.trade.cutting import Refusal
from wizard.trade.figures import Ledger
from wizard.trade.findings import ORDER
from wizard.trade.findings.checker import WORDINGS, Checker
from wizard.trade.findings.cloth_findings import cloth_findings
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Allowances, Cloth, Fixing, Fullness, Job, Obstacle, Owned, Post, Section
from wizard.trade.layers import prepare
from wizard.trade.lengths import ZERO, Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Finding
from wizard.trade.sections import along_side, goes_on, post_at


class Case(NamedTuple):
    """A job that looks wrong, what is found of it, and the same job mended."""

    id: str
    key: str
    """Where it is mended, as the key ends."""
    wrong: Job
    right: tuple[Job, ...] = ()
    says: str = ""
    """A case of finding_texts.py, or words of the finding."""


FALLEN = (inches(12), inches("12 1/8"), inches("12 1/2"))
SQUARE = Post(inches(3), inches(3), inches("1/2"), inches("1/2"), may_fix=True, turned=False)
"""Its step is 3 - 1/2 - 1 = 1 1/2 in both ways."""
RETURNS: dict[str, Any] = {"right_end": "returns", "right_return": inches(1)}
SHORT: dict[str, Any] = {"right_end": "stops short", "right_short": inches(11), "run": (inches(65),) * 2}


def left(**more: Any) -> Job:
    return with_section(small(), "left", **more)


def runs(section_id: str, run: str | Length, job: Job | None = None) -> Job:
    """A job with a section as long as that."""
    length = inches(run) if isinstance(run, str) else run
    return with_section(job or small(), section_id, run=(length,) * 2)


def at_post(post: Post, **more: Any) -> Job:
    """The left section of a bed with rails 1 in thick, at a foot post of these measures."""
    return surveyed(left(**more), post={"foot-left": post})


def slatted(free: str, raised: str = "0", **more: Any) -> Job:
    """A ledger so far below the rail's upper edge."""
    job = surveyed(small(), slatted=True)
    return with_section(job, "left", free_height=inches(free), raised=inches(raised), **more)


def in_the_way(at: int | str, **more: Any) -> Job:
    return left(in_the_way={"it": Obstacle(at=inches(at), **more)})


def drops(**readings: tuple[str, ...]) -> Job:
    """A job with these drops of some sections."""
    job = small()
    for each, read in readings.items():
        job = with_section(job, each, drop=tuple(map(inches, read)))
    return job


def ladder(**more: Section) -> Job:
    """A bed whose right side is made of two sections, 14 in of bare rail between them: they make 76 in of rail."""
    foot_part = section(54, 12, side="right", right_end="stops short", right_short=inches(22))
    head_part = section(8, 12, side="right", left_end="stops short", left_short=inches(68))
    sections = {"left": small().survey.section["left"], "foot-part": foot_part, "head-part": head_part}
    return surveyed(small(), section={**sections, **more})


def halves(**more: Any) -> Job:
    """The right side in two sections that meet at a post between them, up to which both go."""
    both = {"a": section(38, 12, side="right"), "b": section(38, 12, side="right", **more)}
    return surveyed(small(), section={"left": small().survey.section["left"], **both})


KEPT_WHOLE = replace(SQUARE, may_fix=False)
QUEEN = surveyed(small(), bed_size="US queen")
HARD = surveyed(small(), floor="hard floor", floor_gap=inches("1/4"))
OVER: dict[str, Any] = {"left_end": "overlaps", "left_return": inches(2)}
FOOT_OVER = with_section(small(), "foot", right_end="overlaps", right_return=inches(2))
OWN_GAPS = {id: replace(each, floor_gap=inches("1/4")) for id, each in HARD.survey.section.items()}
SHORT_RIGHT = with_section(small(), "right", **SHORT)
NEXT = {"more": section(20, 12, side="left")}
UPHILL = ("12 1/8", "12 1/4", "12 9/16")

OF_THE_BED = [
    Case("floor-uneven:left", "left.hem_line", left(drop=FALLEN),
         tuple(left(drop=FALLEN, hem_line=each) for each in ("level", "follow the floor")), "floor-uneven"),
    Case("hem-daylight:left", "left.hem_line", left(drop=FALLEN, hem_line="level"),
         (left(drop=FALLEN, hem_line="follow the floor"),), "shows gaps of 0 in, 1/8 in, 1/2 in"),
    Case("drop-apart:left", "left.drop.2", left(drop=(inches(12), inches("14 1/16"))),
         (left(drop=(inches(12), inches(14))),)),
    Case("run-lean:left", "left.run.2", left(run=(inches(76), inches("76 3/8"))),
         (left(run=(inches(76), inches("76 1/4"))),)),
    Case("run-differs:left:right", "right.run.1", runs("left", "76 9/16"), (runs("left", "76 1/2"),)),
    Case("run-differs:left:right", "right.run.1", runs("right", "77 1/16"), (), "run-differs, as read"),
    Case("run-long:left", "left.run.1", runs("left", "240 1/16"), (runs("left", "240"),)),
    Case("run-long:left", "left.run.1", runs("left", Length.of(6097, "mm")), (runs("left", Length.of(6096, "mm")),)),
    Case("run-short:left", "left.run.1", runs("left", "11"), (runs("left", "12"),)),
    Case("drop-size:left:1", "left.drop.1", left(drop=(inches(2),) * 3), (left(drop=(inches(3),) * 3),)),
    Case("drop-size:left:3", "left.drop.3", left(drop=(inches(31),) * 3), (left(drop=(inches(30),) * 3),)),
    Case("reading-order:left", "left.drop_at.1", left(drop_at=(inches(50),)), (left(drop_at=(inches(5),)),)),
    Case("reading-outside:left", "left.drop_at.1", left(drop_at=(None, None, inches(80))),
         (left(drop_at=(None, None, inches(70))),)),
    Case("drop-none:left", "left.drop.1", left(floor_gap=inches(12)), (left(floor_gap=inches(1)),)),
    Case("hook:left:right", "left.right_hook", left(right_hook=inches(2)), (left(right_hook=ZERO),)),
    Case("run-nominal:foot", "foot.run.1", runs("foot", "53", QUEEN), (QUEEN,)),
    Case("run-nominal:left", "left.run.1", runs("left", "87", QUEEN), (QUEEN,)),
    Case("run-nominal:foot", "foot.run.1", runs("foot", "40", surveyed(small(), bed_size="EU 170")), (),
         "an EU 170 bed"),
    Case("run-nominal:foot", "foot.run.1", runs("foot", "40", surveyed(small(), bed_size="UK 150")), (),
         "a UK 150 bed"),
    Case("run-nominal:right", "foot-part.run.1",
         surveyed(with_section(ladder(), "foot-part", right_short=inches(42)), bed_size="US queen"), (),
         "From post to post the right side is 96 in (foot-part section: a run of 54 in, and 42 in from there"),
    # The sizes of a post change places round the corner: its size along the side rail is the one across the foot run.
    Case("step-below:left:right", "foot-left.along_side", at_post(replace(SQUARE, along_end=inches("1 1/4"))),
         (at_post(replace(SQUARE, along_end=inches("1 1/2"))), at_post(replace(SQUARE, along_side=inches(1)))),
         "ends 1/4 in short"),
    Case("step-below:foot:left", "foot-left.along_side", at_post(replace(SQUARE, along_side=inches(1)))),
    Case("return-long:left:right", "left.right_return",
         at_post(SQUARE, **RETURNS | {"right_return": inches("3 1/16")}),
         (at_post(SQUARE, **RETURNS | {"right_return": inches(3)}),), "return-long"),
    Case("return-unfixed:left:right", "left.right_end", at_post(KEPT_WHOLE, **RETURNS),
         (at_post(SQUARE, **RETURNS), at_post(KEPT_WHOLE))),
    Case("return-unmeasured:left:right", "left.right_return", left(**RETURNS), (at_post(SQUARE, **RETURNS),)),
    Case("return-fixing:left:right", "foot-left.may_fix", at_post(replace(SQUARE, may_fix=None), **RETURNS),
         (at_post(SQUARE, **RETURNS), at_post(KEPT_WHOLE, **RETURNS)), "return-fixing"),
    Case("two-returns:foot-left", "foot.left_return",
         with_section(left(**RETURNS), "foot", left_end="returns", left_return=inches(1)), (left(**RETURNS),)),
    Case("turned-leg:left:right", "left.right_daylight_top", at_post(replace(SQUARE, turned=True)),
         (at_post(replace(SQUARE, turned=True), right_daylight_top=ZERO, right_daylight_floor=inches("1/2")),)),
    Case("ledger-low:left", "left.free_height", slatted("1 1/8", "1/4"),
         (slatted("1 1/4", "1/4"), slatted("1 1/8", "1/4", fixing_face="lower back edge")),
         "The folded tape needs 1 1/4 in"),
    *(Case("ledger-low:left", "left.free_height", slatted(free, raised), (), f"ledger-low, {case}")
      for free, raised, case in (
         ("3/4", "0", "tape"), ("1", "1/4", "tape"), ("1/2", "0", "narrow tape"), ("7/16", "0", "no tape"),
         ("0", "0", "no tape"), ("1 1/8", "3/4", "raised"))),
    *(Case("danger:left:it", "left.in_the_way.it.do", in_the_way(20, kind=kind, do=do))
      for kind in ("heater", "vent", "socket") for do in ("no fixing", "keep clear", None)),
    Case("outside-run:left:it", "left.in_the_way.it.at", in_the_way(80, kind="bracket", do="no fixing")),
    *(Case("edge-outside:left:it", "left.in_the_way.it.width",
           in_the_way(wrong, kind="heater", width=inches(12), do="no fixing"),
           (in_the_way(right, kind="heater", width=inches(12), do="no fixing"),), f"edge-outside, {end}")
      for wrong, right, end in ((72, 70, "end"), (5, 6, "start"))),
    # That of the whole bed is not asked about where every section has its own.
    Case("gap-none", "floor_gap", surveyed(small(), floor="hard floor"),
         (surveyed(HARD, floor_gap=inches("1/8")), surveyed(HARD, floor_gap=None, section=OWN_GAPS))),
    Case("gap-wide", "floor_gap", surveyed(small(), floor_gap=inches("5/8")),
         (surveyed(small(), floor_gap=inches("1/2")),)),
    Case("gap-none:left", "left.floor_gap", with_section(HARD, "left", floor_gap=ZERO),
         (HARD, with_section(HARD, "left", floor_gap=inches("3/8")),
          with_section(HARD, "left", floor_gap=ZERO, on=False)),
         "gap-none"),
    Case("gap-wide:foot", "foot.floor_gap", with_section(HARD, "foot", floor_gap=inches(3)), (HARD,), "gap-wide"),
    # 65 in and 11 in short are the 76 in of the other side. Read post to post, and 11 in short said too, they differ.
    Case("run-differs:left:right", "right.run.1", with_section(SHORT_RIGHT, "right", right_short=inches(10)),
         (SHORT_RIGHT, with_section(small(), "right", right_end="stops short", run=(inches(60),) * 2))),
    Case("run-differs:left:right", "right.run.1", with_section(SHORT_RIGHT, "right", right_end="stops"), (),
         "say so at its end"),
    Case("run-differs:left:right", "right.run.1", runs("right", "76", SHORT_RIGHT), (), "run-differs, short"),
    Case("run-differs:left:right", "right.run.1", runs("right", "76", SHORT_RIGHT), (),
         "the run only as far as the section goes"),
    # Sections that share a side: those read past one another to the corner posts are not added up, others are.
    Case("run-differs:left:right", "head-part.run.1", with_section(ladder(), "head-part", left_short=inches(78)),
         (ladder(),), "run-differs, past others"),
    Case("run-differs:left:right", "a.run.1", halves(right_end="stops short", right_short=inches(6)), (halves(),),
         "the right 82 in (a section and b section: runs of 76 in together, and 6 in"),
    # Left: level at 12, with 12 3/8 read at the foot: 3/8 of daylight there. Foot: level, none.
    Case("hems-apart:foot-left", "foot.hem_line",
         left(drop=(inches(12), inches(12), inches("12 3/8")), hem_line="level"),
         (left(drop=(inches(12), inches(12), inches("12 3/8")), hem_line="follow the floor"),
          left(drop=(inches(12), inches(12), inches("12 1/4")), hem_line="level")),
         "hems-apart"),
    # Left, right and foot: nothing stands at the head, so there is nothing to lie over there.
    Case("overlap-none:left:left", "left.left_end", left(**OVER),
         (surveyed(left(**OVER), section={**NEXT, **left(**OVER).survey.section}),
          left(right_end="overlaps", right_return=inches(2)))),
    Case("overlap-none:foot:right", "foot.right_end",
         with_section(FOOT_OVER, "right", left_end="stops short", left_short=inches(11)), (FOOT_OVER,)),
    # One side is read from head to foot, the other from foot to head.
    Case("floor-slopes:left:right", "right.drop.1", drops(left=UPHILL, right=UPHILL),
         (drops(left=UPHILL, right=UPHILL[::-1]), drops(left=("12", "12", "12 1/4"), right=("12", "12", "12 1/4")),
          drops(left=("12", "12", "12"), right=("12", "12", "13"))),
         "floor-slopes"),
    Case("split-narrow:left:it", "left.in_the_way.it.overlap",
         in_the_way(30, kind="centre leg", width=inches(3), do="split here", overlap=inches("3 3/4")),
         tuple(in_the_way(30, kind=kind, width=inches(3), do="split here", overlap=inches(overlap))
               for kind, overlap in (("centre leg", 4), ("drawer", 2))),
         "split-narrow"),
    Case("split-outside:left", "left.in_the_way.it.overlap",
         in_the_way("1/2", kind="centre leg", width=inches(3), do="split here", overlap=inches(2)),
         (in_the_way(30, kind="centre leg", width=inches(3), do="split here", overlap=inches(2)),)),
]  # fmt: skip


def owning(cloth: dict[str, Any] | None = None, **owned: Any) -> Job:
    """A job with one length in hand."""
    return face(**(cloth or {}), owned={"bolt": Owned(**owned)})


def face(**more: Any) -> Job:
    return with_face(small(), **more)


def allowed(**more: Any) -> Job:
    return replace(small(), allowances=Allowances(**more))


def full(number: str, **more: Any) -> Job:
    return replace(face(**more), fullness=Fullness(want=Fraction(number)))


def in_hand(length: int) -> Job:
    """As full as so much cloth in hand makes it."""
    job = face(owned={"bolt": Owned(length=inches(length))}, weight="light")
    return replace(job, fullness=Fullness(aim="all the cloth I own", want=Fraction(2)))


def with_spare(spare: str, **more: Any) -> Job:
    """A job whose squaring takes what is left of the last step but so much."""
    layer = make_plan(face(**more)).layers[0]
    left_over = known(layer.buy.value) - known(layer.roll.value)
    return replace(face(**more), allowances=Allowances(squaring=inches(1) + left_over - inches(spare)))


def fixed_by(kind: str, rail: str = "solid wood", **survey: Any) -> Job:
    job = surveyed(small(), rail=rail, **survey)
    return replace(job, cloth=replace(job.cloth, fixing=Fixing(kind=kind)))  # type: ignore[arg-type]


def stapled(*legs: str, rail: str | None = "1 1/8") -> Job:
    """A bed of 40 in whose rail is so thick, with staple legs to choose from."""
    fixing = Fixing(kind="staples", legs=tuple(map(inches, legs)))
    return bed(survey={"rail_thickness": inches(rail) if rail else None}, fixing=fixing)


def lots(*given: str | None) -> dict[str, Owned]:
    """Lengths in hand of these dye lots."""
    ids = ("length", "length-2", "scrap")
    return {id: Owned(length=inches(20 if id == "scrap" else 100), lot=lot) for id, lot in zip(ids, given, strict=True)}


def two_lots(*given: str) -> Job:
    """Each length gives two widths of 13 1/2 in, and one section is to be as full as both allow: it takes all four."""
    owned = {lot + str(at): Owned(length=inches(29), lot=lot) for at, lot in enumerate(given)}
    job = replace(face(owned=owned), fullness=Fullness(aim="all the cloth I own"))
    return surveyed(job, section={"left": job.survey.section["left"]})


def lined(**fine: Any) -> Job:
    job = face(**fine)
    return replace(job, cloth=replace(job.cloth, lining=Cloth(use=True, width=inches(55), weight="light")))


WASHED: dict[str, Any] = {"wash": "washed first", "warp_shrink": Fraction(3, 100), "weft_shrink": Fraction(0)}
HURT: dict[str, Any] = {"length": inches(24)}
METRIC = replace(small(), standard="metric", show="cm", ruler=Length.of(1, "mm"))
BEHIND = Cloth(use=True, width=inches(45), weight="medium")
THICK = replace(full("5/2"), cloth=replace(small().cloth, interlining=BEHIND))
BOLT = owning(length=inches(90), width=inches(50))

OF_THE_CLOTH = [
    Case("nothing-spare:face", "face.step", with_spare("1/2"), (with_spare("1"), owning(length=inches(400))),
         "nothing-spare"),
    # 3 3/4 yd at 18.50 is 69.375, so 69.38; 3 7/8 yd is 71.6875, so 71.69.
    Case("nothing-spare:face", "face.step", replace(with_spare("1/2", price=Decimal("18.50")), currency="£"), (),
         "nothing-spare, priced"),
    *(Case("not-washed:lining", "lining.wash", lined(**fine), (), "not-washed, behind fine cloth")
      for fine in ({"kind": "lawn"}, {"kind": "fine silk"}, {"weight": "sheer"})),
    Case("lots-missing:face", "face.owned.length-2.lot", face(owned=lots("A", None, None)),
         (face(owned=lots(None, None, None)), face(owned=lots("A", "A", "A"))), "lots-missing"),
    Case("repeat-unread:face", "face.repeat", face(repeat_kind="straight"),
         (face(repeat_kind="straight", repeat=inches(8)), small()), "repeat-unread"),
    Case("tape-top", "allowances.top", allowed(top=inches("7/16")), (allowed(top=inches("1/2")), METRIC),
         "tape-top, no room"),
    Case("tape-top", "allowances.top", allowed(top=inches("1 1/16")),
         (allowed(top=inches(1)), allowed(top=inches("3/4"))), "tape-top, sticks out"),
    Case("least-piece", "allowances.least_piece", allowed(least_piece=inches(1)), (METRIC,)),
    Case("usable-join:face", "face.width", face(width=inches(2), trim=inches("1/2"))),
    *(Case("usable-none:face", "face.width", face(**more), (small(),))
      for more in (
         {"width": inches(1)}, WASHED | {"weft_shrink": Fraction(1)}, WASHED | {"warp_shrink": Fraction(1)})),
    Case("usable-narrow:face", "face.width", face(width=inches(13)), (face(width=inches("13 1/16")),)),
    Case("off-mark:allowances.join", "allowances.join", allowed(join=inches("1/3")),
         (allowed(join=inches("3/8")), METRIC), "off-mark"),
    Case("off-mark:allowances.end_hem", "allowances.end_hem", allowed(end_hem=inches("5/7")), (METRIC,)),
    Case("fullness-under", "fullness.want", full("3/4"), (full("1"),)),
    Case("fullness-mean", "fullness.want", full("5/4"), (full("1"), full("3/2"))),
    Case("fullness-much", "fullness.want", full("16/5"), (full("3"),)),
    *(Case(id, "fullness.aim", in_hand(length), (), id)
      for id, length in (("fullness-mean", 84), ("fullness-much", 200), ("fullness-guide", 130))),
    *(Case("fullness-guide", "fullness.want", full(does_not, weight=weight), (full(fits, weight=weight),))
      for weight, fits, does_not in (
         ("heavy", "2", "5/2"), ("medium", "5/2", "3"), ("light", "5/2", "2"), ("sheer", "3", "5/2"))),
    Case("fullness-guide", "fullness.want", THICK, (), "usually takes a fullness of 2."),
    Case("not-washed:face", "face.wash", small(),
         (surveyed(small(), taken_off="stays on"), face(wash="already washed"))),
    Case("shrink-none:face", "face.warp_shrink", face(wash="washed first"),
         (face(wash="washed first", warp_shrink=Fraction(3, 100)),)),
    Case("shrink-much:face:weft_shrink", "face.weft_shrink", face(**WASHED | {"weft_shrink": Fraction(11, 100)}),
         (face(**WASHED),), "shrink-much"),
    Case("one-way-along:face", "face.lay", face(one_way=True, lay="along"),
         (face(one_way=True, lay="along", sideways=True),)),
    Case("damage:face:bolt", "face.owned.bolt.damage_to",
         owning(length=inches(90), damage_from=inches(24), damage_to=inches(20)),
         (owning(length=inches(90), damage_from=inches(24), damage_to=inches(28)),)),
    Case("owned-unused:face:bolt", "face.owned.bolt.length", owning(length=inches(12)), (owning(length=inches(13)),)),
    # The shortest cut is 11 1/2 in: of 12 3/4 in, 11 3/4 in are left once it is squared, 11 3/8 in once it is washed.
    Case("owned-unused:face:bolt", "face.owned.bolt.length", owning(WASHED, length=inches("12 3/4"), washed=False),
         (owning(WASHED, length=inches("12 3/4"), washed=True), owning(WASHED, length=inches(13), washed=False)),
         "owned-unused, washed"),
    Case("owned-unused:face:bolt", "face.owned.bolt.length",
         owning(**HURT, damage_from=inches("12 3/8"), damage_to=inches(13)),
         (owning(**HURT, damage_from=inches("12 1/2"), damage_to=inches(13)),
          owning(**HURT, damage_from=inches(12), damage_to=inches("12 1/2"))),
         "owned-unused, damaged"),
    Case("dye-lots:face:left", "face.owned", two_lots("A", "B"), (two_lots("A", "A"),), "A, B"),
    # Usable 11 in, so 192 in takes 20 widths: with 19 joins of 1 in that is 10 11/20 in each, under the least piece.
    Case("refused:face", "allowances.least_piece", with_face(allowed(least_piece=inches("10 3/4")), width=inches(12))),
    Case("fixing-leg", "fixing.legs", stapled("1/4", "5/16"), (stapled("3/8"), stapled(), stapled(rail=None)),
         "fixing-leg"),
    Case("fixing-leg", "fixing.kind", stapled(rail="1/16"), (), "but only 0 in fits inside the rail."),
    *(Case("fixing-unsuited:left", "fixing.kind", fixed_by(bad, rail), (fixed_by(good, rail),))
      for rail, good, bad in (
         ("solid wood", "tacks", "upholstery pins"), ("veneered board", "staples", "tacks"),
         ("metal", "magnets", "staples"), ("upholstered", "upholstery pins", "glue"),
         ("heirloom", "hook-and-loop", "adhesive hook-and-loop"))),
    Case("fixing-unsuited:foot", "fixing.kind", with_section(fixed_by("staples"), "foot", rail="metal", name="end"),
         (small(),), "fixing-unsuited"),
    Case("fixing-cleaning", "fixing.kind", fixed_by("staples", taken_off="often"),
         (fixed_by("staples", taken_off="stays on"), fixed_by("adhesive hook-and-loop", taken_off="often"),
          bed(survey={"rail": "metal", "taken_off": "often"}, fixing=Fixing()))),
    Case("fixing-paint", "fixing.kind", fixed_by("staples", watch=("old paint",)),
         (fixed_by("staples"), fixed_by("glue", watch=("old paint",)))),
    Case("fixing-antique", "fixing.kind", fixed_by("glue", watch=("antique",)),
         (fixed_by("glue"), fixed_by("hook-and-loop", watch=("antique",)))),
    *(Case(f"size:cloth.face.owned.bolt.{leaf}", leaf, owning({}, **wrong), (BOLT,))
      for leaf, wrong in (
         ("length", {"length": inches("1 13/16")}), ("width", {"length": inches(90), "width": inches(181)}))),
]  # fmt: skip


STOPS = {"drop-none", "fullness-under", "one-way-along", "refused", "split-outside", "usable-join", "usable-none"}
"""What no plan goes on from."""


@pytest.mark.parametrize("case", [*OF_THE_BED, *OF_THE_CLOTH], ids=lambda case: case.id)
def test_what_looks_wrong_is_spoken_of_until_it_is_mended(case: Case) -> None:
    finding = found(case.wrong)[case.id]
    assert finding.key.endswith(case.key)
    assert (finding.level == "stop") == (case.id.partition(":")[0] in STOPS)
    assert finding.level != "stop" or not make_plan(case.wrong).complete
    assert finding.sentence.endswith(".")
    assert finding.way_out.endswith(".")
    assert [case.id in found(job) for job in case.right] == [False] * len(case.right)
    if case.says in SENTENCES or case.says in WAYS_OUT:
        assert_says(finding, case.says)
    assert case.says in (*SENTENCES, *WAYS_OUT) or case.says in f"{finding.sentence} {finding.way_out}"


def test_an_uneven_floor_offers_both_hems_and_an_inner_layer_behind_fine_cloth_a_wash() -> None:
    key = "survey.section.left.hem_line"
    uneven = found(left(drop=FALLEN))["floor-uneven:left"]
    assert [each.entries for each in uneven.offers] == [{key: "level"}, {key: "follow the floor"}]
    for fine, offered in (({"kind": "lawn"}, [{"cloth.lining.wash": "washed first"}]), ({}, [])):
        raised = found(lined(**fine))
        assert [each.entries for each in raised["not-washed:lining"].offers] == offered
        assert "puckers" not in raised["not-washed:face"].sentence


def test_lengths_held_against_each_other_are_said_in_the_unit_of_the_job_whatever_tape_they_were_read_with() -> None:
    read = (inches(12), inches("12 1/16"), inches("14 1/8"))
    job = with_section(METRIC, "left", run=(inches("20 1/16"),) * 2, drop=read)
    raised = found(with_section(job, "right", run=(inches("30 5/16"), Length.of(75, "cm"))))
    assert_says(raised["run-differs:left:right"], "run-differs, metric")
    for id in ("run-lean:right", "drop-apart:left", "floor-uneven:left"):
        assert not re.search(r"[0-9] in\b", raised[id].sentence)


def test_a_deep_top_allowance_grows_smaller_with_the_tape_below_a_low_ledger() -> None:
    low = replace(slatted("3/4"), allowances=Allowances(top=inches(1)))
    assert_says(found(low)["ledger-low:left"], "ledger-low, deep top")
    tape = replace(low.cloth.tape, width=inches("1 1/2"))
    mended = replace(low, allowances=Allowances(top=inches("3/4")), cloth=replace(low.cloth, tape=tape))
    assert not {"ledger-low:left", "tape-top"} & set(found(mended))


def test_a_kept_finding_comes_last_and_stays_kept_until_its_values_change_and_the_weightiest_comes_first() -> None:
    leaning = left(run=(inches(76), inches(77)))
    open_one = found(leaning)["run-lean:left"]
    kept = replace(leaning, kept={open_one.id: open_one.values})
    assert found(kept)["run-lean:left"].kept
    assert make_plan(kept).findings[-1].id == "run-lean:left"
    assert not found(with_section(kept, "left", run=(inches(76), inches(78))))["run-lean:left"].kept
    levels = [("stop", "warn", "ask", "note").index(each.level) for each in make_plan(everything()).findings]
    assert levels == sorted(levels)
    assert found(stapled("1/4", "5/16"))["fixing-leg"].values == "23/64 in | 1 in | 1/4 in | 5/16 in"


@pytest.mark.parametrize("end", ["left", "right"])
def test_a_section_meets_no_corner_post_where_another_goes_on_unless_one_is_named_there(end: str) -> None:
    """Entered along a side, they lie from the head to the foot: the first one's foot end is at no corner."""
    part = {f"{end}_end": "returns", f"{end}_return": inches(1)}
    alone = surveyed(left(**part), post=dict.fromkeys(("head-left", "foot-left", "middle leg"), KEPT_WHOLE))
    beside = surveyed(alone, section={**alone.survey.section, **NEXT})
    hangs_free = f"return-unfixed:left:{end}"
    assert hangs_free in found(alone)
    assert (hangs_free in found(beside)) is (end == "left")
    assert hangs_free in found(with_section(beside, "left", **{f"{end}_post": "middle leg"}))


def test_an_end_that_stops_short_meets_no_post_and_how_far_is_needed_before_the_plan_is_complete() -> None:
    short = surveyed(SHORT_RIGHT, post={"head-right": KEPT_WHOLE})
    assert not [each for each in found(short) if each.endswith(":right:right")]
    unsaid = make_plan(with_section(short, "right", right_short=None))
    assert (unsaid.complete, [each.key for each in unsaid.missing]) == (False, ["survey.section.right.right_short"])
    assert make_plan(short).complete
    assert make_plan(left(**RETURNS)).missing == (), "a post need not be measured"


def test_sections_of_a_side_lie_where_they_say_whatever_the_order_they_were_entered_in() -> None:
    survey = ladder().survey
    assert "size:survey.section.head-part.left_short" not in found(ladder())
    assert [each for each, _ in along_side(survey, "right")] == ["head-part", "foot-part"]
    assert (goes_on(survey, "foot-part", "left"), post_at(survey, "foot-part", "left")) == (False, "foot-right")
    assert (goes_on(survey, "foot-part", "right"), post_at(survey, "head-part", "right")) == (True, "head-right")
    # Drawn, they are 8 in and 54 in of a rail of 76 in.
    scene = bed_view(PageSketch(make_plan(ladder()), (), "", 761, 761), "")
    lines = [each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "heavy" and each.x1 == each.x2]
    rail = next(each for each in scene.shapes if isinstance(each, Stroke) and each.pen == "fine")
    assert sorted(round(abs(each.y2 - each.y1) / abs(rail.y2 - rail.y1) * 76) for each in lines) == [8, 54, 76]


# Drops in the wrong order come first, and offer to be turned round.
FALLS = {"left": ("12", "12 1/4", "12 1/2"), "right": ("12", "12 1/4", "12 1/2"), "foot": ("10", "10", "10")}
"""Both sides as if read from head to foot: the floor then falls to the foot on the left, to the head on the right."""


def turned(finding: Finding) -> list[str]:
    return [next(iter(each.entries)).split(".")[2] for each in finding.offers]


def test_drops_in_the_wrong_order_are_turned_round_by_the_offer_that_is_taken() -> None:
    # At the foot the left side reads 12 1/2; the right 12, or 12 1/2 once turned round. A level foot fits the second.
    finding = make_plan(drops(**FALLS)).findings[0]
    assert finding.id == "floor-slopes:left:right"
    assert turned(finding) == ["right", "left"]
    assert finding.offers[0].label == "Turn the drops round: right section"
    key = "survey.section.right.drop"
    assert finding.offers[0].entries == {f"{key}.1": "25/2 in", f"{key}.2": "49/4 in", f"{key}.3": "12 in"}
    typed = {f"survey.section.{each}.drop": [f"{drop} in" for drop in read] for each, read in FALLS.items()}
    after = put_many(Project(), {**typed, **finding.offers[0].entries}).survey.section["right"].drop
    assert [str(each.inches) for each in after if each] == ["25/2", "49/4", "12"]
    assert finding.id not in found(with_section(drops(**FALLS), "right", drop=after))
    # Of two, the one in the middle would be taken for the one at the end.
    assert finding.id not in found(drops(**FALLS | {"right": ("12", "12 1/2")}))
    placed = with_section(drops(**FALLS), "right", drop_at=(ZERO, inches(30), inches(76)))
    assert turned(found(placed)[finding.id]) == ["left"], "drops with places of their own are not turned round"


@pytest.mark.parametrize(
    ("foot", "first"), [(("10", "10 3/8", "10 3/4"), "right"), (("10", "10 1/4", "10 1/2"), "left")]
)
def test_the_foot_says_which_side_was_read_the_wrong_way(foot: tuple[str, ...], first: str) -> None:
    # Turned round, the right side leaves 3/4 along the foot, the left 1/2.
    job = drops(left=("12", "12 3/8", "12 3/4"), right=("12 1/2", "13", "13 1/2"), foot=foot)
    assert turned(found(job)["floor-slopes:left:right"])[0] == first


# The cloth.
def test_a_length_is_noted_as_unused_just_where_no_piece_lies_on_it() -> None:
    for damage in (("12 3/8", "13"), ("12 1/2", "13"), ("12", "12 1/2")):
        plan = make_plan(owning(**HURT, damage_from=inches(damage[0]), damage_to=inches(damage[1])))
        used = any(piece.stretch == "bolt" for piece in known(plan.layers[0].cutting).best.pieces)
        assert used == ("owned-unused:face:bolt" not in {each.id for each in plan.findings})


@pytest.mark.parametrize(
    ("needed", "certain", "case"), [(150, True, "too little"), (134, True, "too small"), (134, False, "not certain")]
)
def test_too_little_cloth_never_reads_as_if_there_were_enough(needed: int, certain: bool, case: str) -> None:
    plan = make_plan(small())
    refusal = Refusal("no cloth", None, inches(needed), inches(143), certain)
    layer = replace(plan.layers[0], cutting=None, refused=refusal)
    ledger = Ledger(small(), dict(plan.figures))
    ready = prepare(ledger, "face", {})
    check = Checker(ledger, ruler_of(plan.job), parts=plan.parts, layers=(layer,), prepared=(ready,))
    assert_says({each.id: each for each in cloth_findings(check)}["refused:face"], f"refused, {case}")


# A slip in typing that would take acres of cloth is told, not laid out; a long wall of beds is laid out.
@pytest.mark.parametrize(("run", "fullness"), [("9" * 12, "2.5"), ("1" + "0" * 30, "2.5"), ("80", "1" + "0" * 30)])
def test_acres_of_cloth_are_refused_with_a_sentence_that_says_what_to_read_again(run: str, fullness: str) -> None:
    plan, face = planned(plain_job({"left": straight("left", run, "11")}, fullness=fullness, cloth=cloth("54")))
    assert face.refused is not None
    assert (face.refused.reason, plan.complete) == ("too much", False)
    told = next(finding for finding in plan.findings if finding.id == "refused:face")
    assert "far more cloth than a bed skirt takes" in told.sentence
    assert_says(told, "refused, too much")
    wall = {f"s{number}": straight("left", "240", "11") for number in range(12)}
    assert planned(plain_job(wall, fullness="3", cloth=cloth("45")))[1].cutting is not None


# Surprising sizes are asked about again, never refused; usual ones raise nothing.
def asked(job: Job) -> dict[str, Finding]:
    return {each.key: each for each in make_plan(job).findings if each.id.startswith("size:")}


def test_a_surprising_size_is_asked_about_with_what_is_usual_and_the_plan_goes_on() -> None:
    for usual in (small(), everything(), replace(small(), standard="metric")):
        assert asked(usual) == {}
    job = surveyed(small(), rail_thickness=inches(40))
    (finding,) = asked(job).values()
    assert (finding.key, finding.level) == ("survey.rail_thickness", "ask")
    assert_says(finding, "size")
    assert make_plan(job).complete
    other = surveyed(small(), rail_thickness=Length.of(255, "mm"))
    assert "25.5 cm" in asked(other)["survey.rail_thickness"].sentence, "typed in the other system, it is said in it"


USUAL = {
    "allowances.end_hem": ("0", "4"), "allowances.join": ("1/8", "2"), "allowances.squaring": ("0", "12"),
    "allowances.top": ("0", "4"), "cloth.face.hem": ("0", "6"), "cloth.face.hem_turn": ("0", "2"),
    "cloth.face.lap": ("0", "3"), "cloth.face.owned.bolt.length": ("6", "3600"),
    "cloth.face.owned.bolt.width": ("6", "130"), "cloth.face.repeat": ("0", "40"), "cloth.face.trim": ("0", "4"),
    "cloth.face.width": ("18", "130"), "cloth.fixing.inset": ("0", "6"), "cloth.fixing.spacing": ("1/2", "12"),
    "cloth.tape.turn_under": ("0", "6"), "cloth.tape.width": ("1/2", "6"),
    "survey.post.foot-left.along_end": ("1/2", "12"), "survey.post.foot-left.along_side": ("1/2", "12"),
    "survey.post.foot-left.end_set_in": ("0", "6"), "survey.post.foot-left.side_set_in": ("0", "6"),
    "survey.rail_thickness": ("1/16", "4"), "survey.section.left.left_return": ("1/2", "12"),
    "survey.section.left.left_short": ("1/2", "60"), "survey.section.left.raised": ("0", "6"),
}  # fmt: skip
"""Key -> the least and the greatest size that is not asked about again. Common practice, no source."""


def with_size(table: Any, path: str, size: Length) -> Any:
    """The table with a size at its dotted path."""
    name, _, rest = path.partition(".")
    old = table[name] if isinstance(table, Mapping) else getattr(table, name)
    new = with_size(old, rest, size) if rest else size
    return {**table, name: new} if isinstance(table, Mapping) else replace(table, **{name: new})


@pytest.mark.parametrize("key", USUAL)
def test_a_size_is_asked_about_from_the_first_mark_beyond_what_is_usual(key: str) -> None:
    job = surveyed(BOLT, post={"foot-left": Post()})
    least, most = map(inches, USUAL[key])
    mark = inches("1/16")
    for usual, beyond in [(most, most + mark), *([(least, least - mark)] if least else [])]:
        assert [key in asked(with_size(job, key, size)) for size in (usual, beyond)] == [False, True]


# The catalogue of what findings say.
def test_every_wording_has_a_level_and_all_that_is_said_and_names_lengths_in_forms_there_are() -> None:
    bases = {id.partition("/")[0] for id in WORDINGS if "/" in id}
    for id, wording in WORDINGS.items():
        assert wording.note in ORDER, id
        assert (wording.sentence and wording.more) or id in bases, id
        for text in (wording.sentence, wording.more):
            forms = {form for _, name, form, _ in Formatter().parse(text) if name}
            assert forms <= {"", "alike", "nearest", "up", "down"}, id
