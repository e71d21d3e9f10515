"""What the commands say on standard error, by its key: the one place where the tests word it."""

from __future__ import annotations

TEXTS = {
    "no terminal": (
        "the wizard needs a terminal, and there is none here.\nTo print the plan instead: railskirt sheet FILE"
    ),
    "mistyped command": "there is no file 'shet' here. Did you mean the command 'sheet'? See railskirt --help.",
    "no such file": "there is no file or folder {0} here.",
    "nothing here": "no projects in {0} yet. Start one: railskirt new NAME",
    "no template": "There is no template with that name: no such file, here or in the folder {0!r}.",
    "copy exists": "{0} already exists and was left alone. Remove it first, or run this on a terminal to be asked.",
    "replace the copy": "{0} already exists. Replace it and lose the work in it?",
    "output closed": "could not go on: standard output is closed.",
    "disk full": "could not go on: No space left on device.",
    "stopped": "stopped.",
    # Sheets into files.
    "written": "written to {0}",
    "unfinished": "unfinished: {0} answers are missing: {1}; and {2} more, listed in the overview.",
    "not for this form": "--only works with --as text, html, svg, json, not with {0}.",
    "needs a folder": "several jobs as {0} need a folder, for example: --out sheets",
    "no order list": "--together makes an order list, as text or html.",
    "the project itself": "{0} is the project itself. Give the sheets another name.",
    "maybe a project": "{0} may be a project: its name ends in .toml. Give the sheets another name.",
    "sheet exists": "{0} already exists: {1}. Give the sheets another name, or add --replace.",
    "no sheet": "{0}, not a railskirt sheet",
    "no file name": "“{0}” cannot be written to: {1}. Choose another name, for example: {2}",
    "odd character": "it contains a character that no file name can have",
    "text written": "Open it in any editor, or print it.",
    # A browser.
    "served": "WARNING: {0} is open to {1}.",
    "works once": "The link below works once: only the first browser that opens it gets in.",
    "reach of a file": (
        "It can read and change this project. "
        "Its sheets are downloads; it can open and write no other file on this computer."
    ),
    "reach of a folder": (
        "It can read and change every project and template in this folder, and start new ones. "
        "Its sheets are downloads; it can open and write no other file on this computer."
    ),
    "not encrypted": "Nothing is encrypted: on a network you do not trust, others can read everything.",
    "open this": "Open this link. Press Ctrl+C here to stop. Every answer is saved at once.",
    "not ours": (
        "{0} is not an address of this computer. "
        "Use one address from this computer's network settings, such as 192.168.1.20"
    ),
    "every address": (
        "{0} would open every address of this computer. "
        "Use one address from this computer's network settings, such as 192.168.1.20"
    ),
    "no port": "{0!r} is not a port from 0 to 65535, such as 8127",
    "port in use": "port {0} of {1} is in use. Choose another one: --port {2}",
    "no extra": (
        "the wizard needs an extra for browsers, and it is not installed.\n"
        "To add it, run this in railskirt's own folder: pip install '.[browser]'"
    ),
}
"""Key -> the sentence; what is named in it is numbered."""


def text_of(key: str, *named: object) -> str:
    """The sentence."""
    return TEXTS[key].format(*named)


def message(key: str, *named: object) -> str:
    """The whole message, as it comes on standard error."""
    return f"railskirt: {text_of(key, *named)}\n"
