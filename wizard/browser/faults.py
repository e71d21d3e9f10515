"""What can keep the wizard from being shown in a browser. Loads nothing, so that anybody may ask for it."""

from __future__ import annotations


class NotServed(Exception):  # noqa: N818
    """The wizard could not be shown in a browser; the message is a sentence for the maker."""
