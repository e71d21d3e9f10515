"""`railskirt schema`: the JSON Schema of the project file."""

from __future__ import annotations

import json
from typing import TextIO

from wizard.commands.exits import Exit
from wizard.project.shapes import schema


def run(out: TextIO) -> Exit:
    """Write the schema on `out`."""
    print(json.dumps(schema(), ensure_ascii=False, indent=2), file=out)
    return Exit.OK
