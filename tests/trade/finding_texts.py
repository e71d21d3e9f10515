"""What findings say, whole, by their id and what is special about the case: the one place where the tests word them."""

from __future__ import annotations

from wizard.trade.plan_records import Finding

SENTENCES = {
    "floor-uneven": "left section: the floor is uneven. The drops lie 1/2 in apart, from 12 in to 12 1/2 in.",
    "run-differs, metric": (
        "The run on the left is ≈ 51 cm, on the right ≈ 77 cm: the right is ≈ 26 cm longer than the left."
    ),
    "run-differs, as read": (
        "The run on the left is 76 in, on the right 77 1/16 in: the right is 1 1/16 in longer than the left."
    ),
    "run-differs, short": (
        "From post to post the left side is 76 in, the right 87 in (right section: a run of 76 in, and 11 in that it "
        "stops short of the post): the right is 11 in longer than the left."
    ),
    "run-differs, past others": (
        "From post to post the left side is 76 in, the right 86 in (head-part section: a run of 8 in, and 78 in that "
        "it stops short of the post): the right is 10 in longer than the left."
    ),
    "gap-none": "left section: on a hard floor a hem without daylight drags and wears.",
    "gap-wide": "foot section: daylight of 3 in under the hem is seen across a room.",
    "hems-apart": (
        "At the foot left corner the hem of the left section hangs 3/8 in above the floor, that of the foot section "
        "0 in: 3/8 in apart where they meet."
    ),
    "floor-slopes": (
        "On the left the floor falls 7/16 in towards the foot end, on the right 7/16 in towards the head end. "
        "Either the floor has a twist, or drops stand in the wrong order."
    ),
    "owned-unused, washed": (
        "face cloth, own length “scrap”: once squared and washed it is shorter than any cut, 11 1/2 in, "
        "so it is not used."
    ),
    "owned-unused, damaged": (
        "face cloth, own length “scrap”: once squared, every sound stretch of it is shorter than any cut, 11 1/2 in, "
        "so it is not used."
    ),
    "refused, too little": (
        "face cloth: the cloth there is does not give every piece. It needs at least 150 in; there is 143 in."
    ),
    "refused, too small": (
        "face cloth: the cloth there is does not give every piece. It needs at least 134 in of the 143 in there is, "
        "but what is left beside the pieces and at the ends of the lengths is too small for the last of them: lengths "
        "do not pool."
    ),
    "refused, not certain": (
        "face cloth: no way was found of cutting every piece from the cloth there is. It needs at least 134 in of the "
        "143 in there is, but lengths do not pool. Not every way was looked at, so one may be left."
    ),
    "setback-deep": ("foot section: a setback of 10 in leaves nothing of the interlining under a drop of 10 in."),
    "way-gone": (
        "face cloth was to be cut slit; as the job stands that saves nothing, so it is cut across for the least cloth."
    ),
    "fixing-leg": (
        "To hold through the tape and the face a leg must be at least ≈ 3/8 in, and at most 1 in to stay inside the "
        "rail; none that can be had lies between."
    ),
    "fixing-unsuited": "end: staples do not suit a rail of metal.",
    "size": "Rail thickness: 40 in is surprisingly much.",
    "tape-top, no room": ("A top allowance of 7/16 in leaves no room for the rows between raw edge and drop line."),
    "tape-top, sticks out": "A top allowance of 1 1/16 in does not fit under the tape, which folds to 1 in.",
}

WAYS_OUT = {
    "owned-short": "Add a length, buy cloth for a chosen fullness, or make fewer sections.",
    "owned-short, kept surplus": (
        "Add a length, trim the surplus, buy cloth for a chosen fullness, or make fewer sections."
    ),
    "floor-uneven": (
        "Choose a level hem at the least drop, which shows 1/2 in of daylight where the floor is lowest; "
        "or a hem that follows the floor."
    ),
    "return-long": "Make the return 3 in or less.",
    "ledger-low, tape": "Take a tape of 1 1/2 in or less, or fix to the rail's lower back edge.",
    "ledger-low, narrow tape": "Take a tape of 1 in or less, or fix to the rail's lower back edge.",
    "ledger-low, no tape": "No tape is that narrow: fix to the rail's lower back edge.",
    "ledger-low, raised": (
        "Let the cloth begin no more than 1/8 in above the rail's lower edge, or fix to the rail's lower back edge."
    ),
    "ledger-low, deep top": (
        "Take a tape of 1 1/2 in or less and a top allowance of 3/4 in or less, or fix to the rail's lower back edge."
    ),
    "off-mark": "Take 3/8 in, or a finer mark.",
    "fullness-mean": (
        "Choose a number instead: 1.5 or more, or 1 for a flat skirt, and buy what it takes; or add a length."
    ),
    "fullness-much": "Choose a number instead: 3 or less, and keep what is left.",
    "fullness-guide": "Choose a number instead: 2.5 to 3, or keep it: it is a guide.",
    "fixing-leg": "Add a leg from ≈ 3/8 in to 1 in to those that can be had, or take another fixing.",
    "fixing-unsuited": "Metal takes adhesive hook-and-loop or magnets.",
    "refused, too much": "Read the runs and the fullness again: one of them is a slip.",
    "size": (
        "Read it again, and its unit. It is hardly ever anything but from 1/16 in to 4 in; if it stands, keep it."
    ),
    "tape-top, no room": "Take a top allowance from 1/2 in to 1 in.",
    "tape-top, sticks out": "Take a top allowance of 1 in or less, or wider tape.",
}


def assert_says(finding: Finding, case: str) -> None:
    """The finding is the one the case names, and says what is written here of it."""
    assert finding.id.partition(":")[0] == case.partition(",")[0]
    assert case in SENTENCES or case in WAYS_OUT
    assert finding.sentence == SENTENCES.get(case, finding.sentence)
    assert finding.way_out == WAYS_OUT.get(case, finding.way_out)
