"""A plan rendered in any form, as one text."""

from __future__ import annotations

from collections.abc import Collection, Sequence

import msgspec
from msgspec import Struct

from wizard.render.sheet_names import Format, LabelGrid, PaperId, SheetId
from wizard.trade.plan_records import Plan


class Request(Struct, frozen=True):
    """What to render."""

    form: Format = "text"
    only: Collection[SheetId] | None = None
    """The sheets, for the forms that take some only; None for the usual ones, of JSON for all."""
    date: str | None = None
    """The date printed on a sheet."""
    columns: int = 80
    """Width of text, at least 40."""
    paper: PaperId | None = None
    """What HTML is printed on; None for what the job's units go with."""
    labels: LabelGrid = "cut"
    """The grid on which HTML prints labels."""


def render_orders(plans: Sequence[Plan], request: Request) -> str:
    """One order list for several jobs, as text or HTML."""
    if request.form == "html":
        from wizard.render.html_sheet import orders_html

        return orders_html(plans, request.date, request.paper)
    from wizard.render.text_sheet import text_orders

    return text_orders(plans, request.columns, request.date)


def render(plan: Plan, request: Request) -> str:
    """The plan in the form requested. The same plan and request give the same text."""
    if request.form == "json":
        from wizard.render.json_sheet import plan_json

        # Several times as fast as the standard library, which indents in Python: as much as a plan takes.
        data = msgspec.json.encode(plan_json(plan, request.date, request.only))
        return msgspec.json.format(data, indent=2).decode() + "\n"
    if request.form == "csv":
        from wizard.render.csv_sheet import cut_list_csv

        return cut_list_csv(plan)
    if request.form == "svg":
        from wizard.render.svg_sheet import drawings_svg

        return drawings_svg(plan, request.only, request.date)
    if request.form == "html":
        from wizard.render.html_sheet import paper_html

        return paper_html(plan, request.only, request.date, request.paper, request.labels)
    from wizard.render.text_sheet import text_sheets

    return text_sheets(plan, request.columns, request.only, request.date)
