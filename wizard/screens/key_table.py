"""`railskirt keys`: the keys in use, as a whole file to begin one's own with. Loads no toolkit."""

from __future__ import annotations

import os
from pathlib import Path
from typing import TextIO

from wizard.screens.key_file import keys_in_use, keys_toml, mistakes_told, settable, unread


def run(named: Path | None, out: TextIO, talk: TextIO) -> bool:
    """Print the keys of a file, or of the usual one; its mistakes on `talk`. False when the file is not a good one."""
    try:
        keys = keys_in_use(named, os.environ)
    except OSError as trouble:
        print(f"railskirt: {unread(named, trouble)}", file=talk)
        return False
    out.write(keys_toml(tuple(each for each in keys.deeds if each.id in {one.id for one in settable()})))
    if keys.mistakes:
        print(mistakes_told(keys), file=talk)
    return not keys.mistakes
