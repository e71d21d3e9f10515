"""What findings say, whole, by their id and what is special about the case: the one place where the tests word them."""

from __future__ import annotations

from wizard.trade.plan_records import Finding

SENTENCES = {
    "floor-uneven": "Left section: the floor is uneven. The drops differ by 1/2 in, from 12 in to 12 1/2 in.",
    "run-differs, metric": (
        "The run is ≈ 51 cm on the left and ≈ 77 cm on the right: the right is ≈ 26 cm longer than the left."
    ),
    "run-differs, as read": (
        "The run is 76 in on the left and 77 1/16 in on the right: the right is 1 1/16 in longer than the left."
    ),
    "run-differs, short": (
        "From post to post the left side is 76 in, the right 87 in (right section: a run of 76 in, and 11 in from "
        "there to the post): the right is 11 in longer than the left."
    ),
    "run-differs, past others": (
        "From post to post the left side is 76 in, the right 86 in (head-part section: a run of 8 in, and 78 in from "
        "there to the post): the right is 10 in longer than the left."
    ),
    "gap-none": "Left section: there is no gap under the hem. On a hard floor it drags and wears.",
    "gap-wide": "Foot section: a gap of 3 in under the hem shows from across the room.",
    "hems-apart": (
        "At the foot left corner the hem of the left section hangs 3/8 in above the floor, that of the foot section 0 "
        "in. Where they meet you will see a step of 3/8 in."
    ),
    "floor-slopes": (
        "On the left the floor falls 7/16 in towards the foot end, on the right 7/16 in towards the head end. Either "
        "the floor twists, or drops are in the wrong order."
    ),
    "owned-unused, washed": (
        "Face cloth, your length “bolt”: once squared and washed it is shorter than the shortest cut, 11 1/2 in, so it "
        "is not used."
    ),
    "owned-unused, damaged": (
        "Face cloth, your length “bolt”: once squared, every undamaged stretch of it is shorter than the shortest cut, "
        "11 1/2 in, so it is not used."
    ),
    "refused, too little": "Face cloth: you do not have enough cloth. You need at least 150 in; you have 143 in.",
    "refused, too small": (
        "Face cloth: you do not have enough cloth in one length. The pieces need at least 134 in of your 143 in, but "
        "the offcuts are too small for the last pieces."
    ),
    "refused, not certain": (
        "Face cloth: no way was found to cut every piece from the cloth you have. You need at least 134 in of your "
        "143 in, in several lengths. Not every way was tried: there may still be one."
    ),
    "setback-deep": (
        "Foot section: the interlining ends 10 in above the face's hem, and the drop is only 10 in. Nothing of it is "
        "left."
    ),
    "way-gone": (
        "Face cloth was set to be cut slit, but that no longer saves cloth. It is now cut across for the least cloth."
    ),
    "fixing-leg": (
        "No leg on your list fits. It must be at least ≈ 3/8 in to hold through the tape and the face, and at most "
        "1 in to stay inside the rail."
    ),
    "fixing-unsuited": "end: staples do not suit a rail of metal.",
    "size": "Rail thickness: 40 in is unusually large.",
    "tape-top, no room": (
        "A top allowance of 7/16 in is too small. The rows of stitching do not fit between the raw edge and the drop "
        "line, where the cloth begins."
    ),
    "tape-top, sticks out": (
        "A top allowance of 1 1/16 in is too large. It does not fit under the tape, which folds to 1 in."
    ),
    "nothing-spare": "Face cloth: 3 3/4 yd leaves only 1/2 in to spare.",
    "not-washed, behind fine cloth": (
        "Lining is not washed before you cut it, and it hangs behind fine cloth. If it shrinks later, the face puckers."
    ),
    "lots-missing": (
        "Face cloth: your length 2 and your length “scrap” without a dye lot, though other lengths have one."
    ),
    "repeat-unread": "Face cloth: the pattern repeat is not measured yet, so the plan adds no cloth for matching it.",
    "return-fixing": (
        "Left section, the foot end: you have not said whether you may fix into the post. If not, the return hangs "
        "free."
    ),
    "edge-outside, end": (
        "Left section: the heater is 12 in wide around 72 in, so it reaches 2 in past the end of the run."
    ),
    "split-narrow": (
        "Left section: the centre leg is 3 in wide, but the two parts overlap by only 3 3/4 in. Neither reaches far "
        "enough past it to be fixed there, so both ends hang loose."
    ),
    "shrink-much": "Face cloth: a shrinkage of 11 % across it is unusually large.",
    "edge-outside, start": (
        "Left section: the heater is 12 in wide around 5 in, so it reaches 1 in past the end of the run."
    ),
}

WAYS_OUT = {
    "owned-short": "Add a length, buy cloth for a chosen fullness, or make fewer sections.",
    "owned-short, kept surplus": (
        "Add a length, trim the spare width, buy cloth for a chosen fullness, or make fewer sections."
    ),
    "floor-uneven": (
        "Choose a level hem made to the smallest drop, which shows a gap of 1/2 in where the floor is lowest. Or let "
        "the hem follow the floor."
    ),
    "return-long": "Make the return 3 in or less.",
    "ledger-low, tape": "Use tape 1 1/2 in wide or less, or fix to the rail's lower back edge.",
    "ledger-low, narrow tape": "Use tape 1 in wide or less, or fix to the rail's lower back edge.",
    "ledger-low, no tape": "No tape is that narrow: fix to the rail's lower back edge.",
    "ledger-low, raised": (
        "Start the cloth 1/8 in or less above the rail's lower edge, or fix to the rail's lower back edge."
    ),
    "ledger-low, deep top": (
        "Use tape 1 1/2 in wide or less and a top allowance of 3/4 in or less, or fix to the rail's lower back edge."
    ),
    "off-mark": "Use 3/8 in, or a finer ruler mark.",
    "fullness-mean": "Choose a fullness of 1.5 or more, or 1 for a flat skirt, and buy what it takes. Or add a length.",
    "fullness-much": "Choose a fullness of 3 or less, and keep what is left.",
    "fullness-guide": "Choose a fullness of 2.5 to 3, or keep it: this is a guide.",
    "fixing-leg": "Add a leg from ≈ 3/8 in to 1 in to the list, or use another fixing.",
    "fixing-unsuited": "For metal use adhesive hook-and-loop or magnets.",
    "refused, too much": "Check the runs and the fullness: one of them is wrong.",
    "size": "Check it, and its unit. It is normally from 1/16 in to 4 in; if it is right, keep it.",
    "tape-top, no room": "Use a top allowance from 1/2 in to 1 in.",
    "tape-top, sticks out": "Use a top allowance of 1 in or less, or wider tape.",
    "nothing-spare": "Buy 3 7/8 yd, to allow for a flaw or a wrong cut. Or keep it.",
    "nothing-spare, priced": "Buy 3 7/8 yd, £2.31 more, to allow for a flaw or a wrong cut. Or keep it.",
    "not-washed, behind fine cloth": "Wash it first, or have the skirt dry-cleaned.",
    "lots-missing": "Give the dye lot of each length, or of none.",
    "repeat-unread": "Measure along the selvedge from one motif to the next one like it, before you buy or cut.",
    "return-fixing": "Say whether you may fix into the post.",
    "split-narrow": "Make the overlap 4 in or more, or keep it.",
    "edge-outside, end": "Measure its middle and its width again. If they are right, keep them.",
}


def assert_says(finding: Finding, case: str) -> None:
    """The finding is the one the case names, and says what is written here of it."""
    assert finding.id.partition(":")[0] == case.partition(",")[0]
    assert case in SENTENCES or case in WAYS_OUT
    assert finding.sentence == SENTENCES.get(case, finding.sentence)
    assert finding.way_out == WAYS_OUT.get(case, finding.way_out)
