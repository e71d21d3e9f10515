"""`python -m wizard` is `railskirt`."""

from __future__ import annotations

import sys

from wizard.cli import main

if __name__ == "__main__":
    sys.exit(main())
