"""The catalogue of what findings say."""

from __future__ import annotations

from string import Formatter

from wizard.trade.findings import ORDER
from wizard.trade.findings.sentences import WORDINGS

FORMS = {"", "alike", "nearest", "up", "down"}
"""How a length is shown."""


def test_every_wording_has_a_level_a_sentence_and_a_way_out_or_leaves_them_to_its_variants() -> None:
    bases = {id.partition("/")[0] for id in WORDINGS if "/" in id}
    for id, wording in WORDINGS.items():
        assert wording.level in ORDER, id
        assert (wording.sentence and wording.way_out) or id in bases, id


def test_a_name_in_a_wording_is_shown_in_a_form_there_is() -> None:
    for id, wording in WORDINGS.items():
        for text in (wording.sentence, wording.way_out):
            assert {form for _, name, form, _ in Formatter().parse(text) if name} <= FORMS, id
