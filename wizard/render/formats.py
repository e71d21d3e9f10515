"""A plan in any of the forms there are, as one text."""

from __future__ import annotations

import io
from collections.abc import Collection

import msgspec
from msgspec import Struct

from wizard.render.sheet_names import Form, SheetId
from wizard.trade.plan import Plan


class Wanted(Struct, frozen=True):
    """What is to be written."""

    form: Form = "text"
    only: Collection[SheetId] | None = None
    """The sheets, for the forms that take some only; None for the usual ones, of JSON for all."""
    date: str | None = None
    """What a sheet is dated."""
    columns: int = 80
    """Width of text, at least 40."""


def written(plan: Plan, wanted: Wanted) -> str:
    """The plan in that form. The same plan and wishes, the same text."""
    if wanted.form == "json":
        from wizard.render.json_sheet import plan_json

        # Several times as fast as the standard library, which indents in Python: as much as a plan takes.
        data = msgspec.json.encode(plan_json(plan, wanted.date, wanted.only))
        return msgspec.json.format(data, indent=2).decode() + "\n"
    if wanted.form == "csv":
        from wizard.render.csv_sheet import cut_list_csv

        return cut_list_csv(plan)
    if wanted.form == "svg":
        from wizard.render.svg_sheet import drawings_svg

        return drawings_svg(plan, wanted.only, wanted.date)
    if wanted.form == "html":
        from wizard.render.html_sheet import paper_html

        return paper_html(plan, wanted.only, wanted.date)
    from wizard.render.text_sheet import write_text

    stream = io.StringIO()
    write_text(plan, stream, wanted.columns, wanted.only, wanted.date)
    return stream.getvalue()
