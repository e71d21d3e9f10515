"""What the maker says and did: the project file, its templates and its keeping."""

from __future__ import annotations

import os

# Whatever else is installed beside the wizard has no say in how a file is read; and to look for such costs every start.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
