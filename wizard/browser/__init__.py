"""The wizard in a browser, on this computer or on a tablet nearby. Needs the optional extra named browser."""

from __future__ import annotations


class NotServed(Exception):  # noqa: N818
    """The wizard could not be shown in a browser; the message is a sentence for the maker."""
