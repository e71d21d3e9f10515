"""Cut lengths: top allowance, finished drop and hem of every layer."""

from __future__ import annotations

from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.job import LayerId
from wizard.trade.lengths import Length, round_up

DOUBLE = Rule("double hem", "2 × {hem}", "A hem turned twice by the same depth takes twice its depth.")
SINGLE = Rule("single hem", "{hem} + {turn}", "A single hem takes its depth and the turn-under.")
FACE_CUT = Rule(
    "cut length of the face", "{top} + {drop} + {hem}, rounded up to {mark}",
    "A width is cut long enough for the top allowance, the finished drop and the hem.",
)  # fmt: skip
INNER_CUT = Rule(
    "cut length of an inner layer", "{top} + ({drop} − {setback}) + {hem}, rounded up to {mark}",
    "An inner layer finishes above the face by the setback, so that it never shows.",
)  # fmt: skip


def hem_of(ledger: Ledger, layer: LayerId) -> Figure[Length]:
    """All the cloth a layer's hem takes."""
    key, id, title = f"cloth.{layer}", f"layer.{layer}.hem", "hem allowance"
    kind, hem = ledger.read(f"{key}.hem_kind"), ledger.read(f"{key}.hem")
    if kind.value == "single":
        return ledger.work(
            id, title, SINGLE, lambda hem, turn: hem + turn, hem=hem, turn=ledger.read(f"{key}.hem_turn")
        )
    return ledger.work(id, title, DOUBLE, lambda hem: hem * 2, hem=hem)


def cut_length(
    ledger: Ledger, layer: LayerId, part_id: str, drop: Figure[Length], mark: Figure[Length]
) -> Figure[Length]:
    """Cut length `C` of one part of a layer, on the ruler mark."""
    id, title = f"layer.{layer}.cut.{part_id}", "cut length"
    top, hem = ledger.read("allowances.top"), hem_of(ledger, layer)
    if layer == "face":
        return ledger.work(id, title, FACE_CUT, _face, top=top, drop=drop, hem=hem, mark=mark)
    setback = ledger.read(f"cloth.{layer}.setback")
    return ledger.work(id, title, INNER_CUT, _inner, top=top, drop=drop, setback=setback, hem=hem, mark=mark)


def _face(top: Length, drop: Length, hem: Length, mark: Length) -> Length:
    return round_up(top + drop + hem, mark)


def _inner(top: Length, drop: Length, setback: Length, hem: Length, mark: Length) -> Length | None:
    """None when the setback leaves nothing: a finding says so."""
    return round_up(top + drop - setback + hem, mark) if drop > setback else None
