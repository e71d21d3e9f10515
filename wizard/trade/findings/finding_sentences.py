"""What every finding says: `ID (LEVEL) = the sentence`, and after `>` the way out.

A name in braces is filled in when the finding is made; a length says how it is shown (`checker.py`). `ID/VARIANT` is
another wording of a finding, and takes its level, and the sentence or way out it does not give, from `ID`. Lines of one
text are joined by a space.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Final, NamedTuple, cast

from wizard.trade.plan_records import Level


class Wording(NamedTuple):
    """What one finding says."""

    level: Level
    sentence: str
    way_out: str


_CATALOGUE: Final = """
unusable (warn) = {what}: {sentence}
  > {way_out}
run-lean (warn) = {section}: the run is {rail:alike} at the rail and {floor:alike} near the floor, {apart:alike} {how}:
  a post leans, or one was misread.
  > Read both again. If they stand, keep them: a gathered section takes the reading at the rail, a flat one the shorter.
run-long (ask) = {section}: a run of {run} is over 20 ft.
  > Read it again, or keep it.
run-short (ask) = {section}: a run of {run} is surprisingly short.
  > Read it again, or keep it.
run-differs (ask) = The run on the left is {left:alike}, on the right {right:alike}: the {longer} is {apart:alike}
  longer than the {shorter}.
  > Read both again, post to post along the rail. If one stops short of a post, say so at its end; if they stand, keep
  them.
run-differs/made up = From post to post the left side is {left:alike}{left_made}, the right {right:alike}{right_made}:
  the {longer} is {apart:alike} longer than the {shorter}.
run-differs/short = From post to post the left side is {left:alike}{left_made}, the right {right:alike}{right_made}: the
  {longer} is {apart:alike} longer than the {shorter}.
  > Read both again: the run only as far as the section goes, and how far it is from there to the bed's corner post. If
  they are right, keep them.
run-nominal (ask) = The run on the {side} is {rail}; {a} {size} bed measures {nominal} that way.
  > Read it again, or mend the bed size. Frames differ: if it stands, keep it.
run-nominal/made up = From post to post the {side} side is {rail}{made}; {a} {size} bed measures {nominal} that way.
drop-apart (ask) = {section}: one drop is {longest:alike}, another {shortest:alike}: {apart:alike} apart, which hardly
  any floor is.
  > Read both again; if they stand, keep them.
drop-beside (ask) = {section}: a drop of {longer:alike}, and {shorter:alike} at the {other_section}: {apart:alike} apart
  on one bed.
  > Read both again; if they are right, keep them.
drop-none (stop) = {part}: a drop of {reading}, raised by {raised}, less {gap} of daylight leaves nothing to hang.
  > Read the drop again, or leave less daylight.
drop-size (ask) = {section}: a drop of {drop} is surprisingly {how} for a bed.
  > Read it again, from the rail's lower edge straight down to what the hem will touch; or keep it.
floor-uneven (warn) = {section}: the floor is uneven. The drops lie {spread:alike} apart, from {least:alike} to
  {greatest:alike}.
  > Choose a level hem at the least drop, which shows {daylight} of daylight where the floor is lowest; or a hem that
  follows the floor.
floor-uneven/no gap =
  > Choose a level hem at the least drop; or a hem that follows the floor.
hem-daylight (note) = {section}: the floor is uneven. The drops lie {spread:alike} apart, from {least:alike} to
  {greatest:alike}; a level hem shows daylight of {daylight}.
  > Take a hem that follows the floor, or keep it.
hem-daylight/no gap = {section}: the floor is uneven. The drops lie {spread:alike} apart, from {least:alike} to
  {greatest:alike}.
reading-order (ask) = {section}: the drops are not in order along the rail: they were read at {places}.
  > Give the places from the section's left end to its right end, each further on than the last.
reading-outside (ask) = {section}: a drop was read at {place:alike}, beyond the end of the run at {run:alike}.
  > Read the place again, from the section's left end.
gap-none (ask) = On a hard floor a hem without daylight drags and wears.
  > Leave from {least:nearest} to {most:nearest}, or keep it.
gap-none/section = {section}: on a hard floor a hem without daylight drags and wears.
gap-wide (ask) = Daylight of {gap} under the hem is seen across a room.
  > Leave no more than {most:nearest}, or keep it.
gap-wide/section = {section}: daylight of {gap} under the hem is seen across a room.
hems-apart (note) = At the {corner} corner the hem of the {first} hangs {first_gap:alike} above the floor, that of the
  {section} {gap:alike}: {apart:alike} apart where they meet.
  > Let both follow the floor with the same daylight, or give them daylights that meet there; or keep it.
floor-slopes (ask) = On the left the floor falls {left} towards the {left_end}, on the right {right} towards the
  {right_end}. Either the floor has a twist, or drops stand in the wrong order.
  > Each section is read from its left end as you face it, so {section} begins at the foot end. Read both again, or keep
  them.
step-below (warn) = {end}: the post ends {short} short of the rail's inner face, so cloth passes behind it with nothing
  to fix to.
  > Read post, set-in and rail thickness again; or stop the section at the post and let it end there.
turned-leg (note) = {end}: the leg is turned, so it opens below, and the daylight beside it is not read yet.
  > Read the daylight between the section's end and the leg, at the top and at the floor; or keep it so.
return-unfixed (warn) = {end}: the return must bend round the post, and one may not fix into that post.
  > Let the section stop at the post; or keep the return and let it hang free.
return-unmeasured (note) = {end}: how far the return of {length} may go is not known: the post is not measured.
  > Measure the post and the rails' set-in, or hold the return against the post and look.
return-long (warn) = {end}: the return of {length} is longer than the post leaves room for, {space}: it would meet the
  neighbouring rail.
  > Make the return {space} or less.
return-long/no space =
  > Let the section stop at the post.
two-returns (note) = {first} and {second} both return at post {post}: the second lies inside the first.
  > Hang the longer return first; or let one of them stop at the post.
hook (note) = {end}: a hook plate or bolt reaches {hook} along the rail; no fixing goes there.
  > Fix close beside it, or carry the tape over it with glue or hook-and-loop.
overlap-none (ask) = {end}: it is to lie over the next section, and there is none.
  > Let it stop at the post or turn in behind it, or add the section it is to lie over.
ledger-low (warn) = {section}: {free} is free below the ledger, and the folded tape needs {need}.
  > Take a tape of {tape} or less, or fix to the rail's lower back edge.
ledger-low/top =
  > Take a tape of {tape} or less and a top allowance of {space} or less, or fix to the rail's lower back edge.
ledger-low/raised =
  > Let the cloth begin no more than {raised} above the rail's lower edge, or fix to the rail's lower back edge.
ledger-low/no tape =
  > No tape is that narrow: fix to the rail's lower back edge.
outside-run (ask) = {thing} lies at {at}, beyond the end of the run at {run}.
  > Read its middle again: from the head on a side, from the bed's left on the foot or head.
danger (warn) = {thing} lies behind or beside the cloth.
danger/heater =
  > Cloth stays at least 3 ft (1 m) from a heater: leave this side without a skirt, or move the heater.
danger/vent =
  > Keep the skirt clear of the vent, so that neither air nor heat is held back.
danger/socket =
  > Keep the skirt clear of the socket, and no leads or adaptors behind it.
split-outside (stop) = {section}: as it is split, a part lies outside the run or has no length.
  > Give a smaller overlap, another place, or no split.
size (ask) = {what}: {value} is surprisingly {how}.
  > Read it again, and its unit. It is hardly ever anything but from {least:nearest} to {most:nearest}; if it stands,
  keep it.
size/at most =
  > Read it again, and its unit. It is hardly ever anything but at most {most:nearest}; if it stands, keep it.
unit (ask) = {what}: {text}, though this job is in {units}.
  > If {would} was meant, type that; if {text} is right, keep it.
setback-deep (stop) = {part}: a setback of {setback} leaves nothing of the {layer} under a drop of {drop:nearest}.
  > Give a smaller setback, or leave the layer out.
end-setback-deep (stop) = {part}: setbacks of {setback} at the ends leave nothing of the {layer}.
  > Give a smaller setback at the ends, or leave the layer out.
usable-none (stop) = {layer}: once shrunk and trimmed nothing is left of the cloth.
  > Read the width again, trim less off the selvedges, or mend the shrinkage.
usable-join (stop) = {layer}: a usable width of {usable} is used up by one join, {join}.
  > Take a wider cloth or a narrower join.
usable-narrow (warn) = {layer}: a usable width of {usable} is no more than twice the least piece, {least}, so a width
  can hardly be shared.
  > Take a wider cloth, or allow a smaller least piece.
tape-top (warn) = A top allowance of {top:nearest} leaves no room for the rows between raw edge and drop line.
  > Take a top allowance from {least:up} to {fold:down}.
tape-top/long = A top allowance of {top:nearest} does not fit under the tape, which folds to {fold:down}.
  > Take a top allowance of {fold:down} or less, or wider tape.
least-piece (warn) = A least piece of {asked} would put a seam in the end hem, so no piece is cut narrower than
  {least:nearest}.
  > Give a least piece of {least:nearest} or more.
off-mark (ask) = {title}: {length} stands on no mark of the ruler, {mark}.
  > Take {marked:nearest}, or a finer mark.
owned-short (stop) = No way was found of making the skirt from the cloth in hand, not even without any fullness.
  > Add a length, {trim}buy cloth for a chosen fullness, or make fewer sections.
fullness-under (stop) = A fullness of {fullness} is less cloth than the run is long.
  > Take 1 for a flat skirt, 2 to 3 for a gathered one.
fullness-mean (warn) = A fullness of {fullness} looks mean.
  > Take 1.5 or more, or 1 for a flat skirt.
fullness-mean/owned =
  > Choose a number instead: 1.5 or more, or 1 for a flat skirt, and buy what it takes; or add a length.
fullness-much (warn) = At a fullness of {fullness} cloth hardly gathers.
  > Take 3 or less.
fullness-much/owned =
  > Choose a number instead: 3 or less, and keep what is left.
fullness-guide (note) = {weight} cloth{layers} usually takes a fullness of {usual}; here it is {fullness}.
  > Take {usual}, or keep it: it is a guide.
fullness-guide/owned =
  > Choose a number instead: {usual}, or keep it: it is a guide.
shrink-much (ask) = {layer}: a shrinkage of {percent} % {way} is surprisingly much.
  > Wash a marked piece and read it again, or keep it.
shrink-none (ask) = {layer} is to be washed first, but no shrinkage is given, so none is allowed for.
  > Wash a marked piece and read what it loses both ways; or keep it if it loses nothing.
not-washed (note) = {layer} is not washed before it is cut: it may shrink when the skirt is cleaned.
  > Wash it first, or have the skirt dry-cleaned.
one-way-along (stop) = {layer} has a nap or pattern that must stay upright; along the roll it would lie on its side.
  > Cut it across the roll, or say that it may lie sideways.
damage (ask) = {layer}, {owned}: damage from {start} to {end} does not lie on it.
  > Read both from the same end, the nearer first.
owned-unused (note) = {layer}, {owned}: once {prepared} it is shorter than any cut, {cut}, so it is not used.
  > Keep it for mending.
owned-unused/damaged = {layer}, {owned}: once {prepared}, every sound stretch of it is shorter than any cut, {cut}, so
  it is not used.
refused (stop) =
refused/no strips = {layer}: {part}there is nothing to cut.{amounts}
  > Switch a section on.
refused/cut too long = {layer}: {part}the cut is longer than any length of cloth.{amounts}
  > Add a longer length, or buy some.
refused/usable too narrow = {layer}: {part}the usable width is too narrow to be joined up.{amounts}
  > Take a wider cloth or a narrower join.
refused/piece too narrow = {layer}: {part}a piece would be narrower than the least piece.{amounts}
  > Allow a smaller least piece, or take a wider cloth.
refused/no cloth = {layer}: {part}the cloth there is does not give every piece. It needs at least {needed:nearest};
  there is {found:nearest}.
  > Add a length; or choose a number for the fullness, and buy the rest.
refused/no cloth in one length = {layer}: {part}the cloth there is does not give every piece. It needs at least
  {needed:nearest} of the {found:nearest} there is, but what is left beside the pieces and at the ends of the lengths is
  too small for the last of them: lengths do not pool.
  > Add a length; or choose a number for the fullness, and buy the rest.
refused/no cloth found = {layer}: {part}no way was found of cutting every piece from the cloth there is. It needs at
  least {needed:nearest} of the {found:nearest} there is, but lengths do not pool. Not every way was looked at, so one
  may be left.
  > Add a length; or choose a number for the fullness, and buy the rest.
refused/cannot join = {layer}: {part}no joins can be placed so that every piece is wide enough.{amounts}
  > Allow a smaller least piece, or take a wider cloth.
refused/joins along = {layer}: {part}it is laid along the roll, where no widths are joined, so the choice of whole or
  half widths cannot hold.{amounts}
  > Choose part widths, or lay it across the roll.
refused/way along = {layer}: {part}it is laid along the roll, and the way chosen for cutting it cannot be had
  there.{amounts}
  > Choose the least cloth, or lay it across the roll.
refused/too much = {layer}: {part}that is far more cloth than a bed skirt takes.{amounts}
  > Read the runs and the fullness again: one of them is a slip.
dye-lots (warn) = {section}: its {layer} comes from more than one dye lot: {lots}.
  > Hold the lengths side by side in daylight before cutting. If they differ, use one for the section, and say the dye
  lots. If they match, keep it.
dye-lots/lengths = {section}: its {layer} comes from lengths that may be of different dye lots: {lots}.
way-gone (ask) = {layer} was to be cut {way}; as the job stands that saves nothing, so it is cut across for the least
  cloth.
  > Look at the ways again, or keep it so.
joins-close (note) = {part}: a join of the {layer} lies within 2 in of one of the face's.
  > Press the two seams apart to either side.
fixing-leg (warn) = To hold through the tape and the {layers} a leg must be at least {least:up}, and at most {most:down}
  to stay inside the rail; none that can be had lies between.
  > Add a leg from {least:up} to {most:down} to those that can be had, or take another fixing.
fixing-leg/thin rail = To hold through the tape and the {layers} a leg must be at least {least:up}, but at this rail
  only {inside:down} stays inside.
  > Take a fixing that does not go into the rail, such as adhesive hook-and-loop, or thinner layers.
fixing-unsuited (warn) = {section}: {kind} {do} not suit a rail of {material}.
  > {Material} takes {better}.
fixing-unsuited/heirloom =
  > {Material} takes {better}, sewn to a band tied round the rail: nothing that marks it.
fixing-cleaning (ask) = The skirt is to come off often for cleaning, and {kind} {do} not let go without leaving marks.
  > Take hook-and-loop where the rail allows it, or keep this and clean the skirt where it hangs.
"""


def _read(catalogue: str) -> Mapping[str, Wording]:
    wordings: dict[str, Wording] = {}
    for entry in re.split(r"^(?=\S)", catalogue, flags=re.MULTILINE)[1:]:
        heading, _, text = " ".join(line.strip() for line in entry.splitlines()).partition(" =")
        id, _, level = heading.partition(" (")
        sentence, _, way_out = text.strip().partition("> ")
        base = wordings.get(id.partition("/")[0], Wording(cast("Level", level.rstrip(")")), "", ""))
        wordings[id] = Wording(base.level, sentence.rstrip() or base.sentence, way_out or base.way_out)
    return wordings


WORDINGS: Final = _read(_CATALOGUE)
"""What each finding says, by `ID` or `ID/VARIANT`."""
