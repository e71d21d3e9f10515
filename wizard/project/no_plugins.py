"""Keeps pydantic from looking for plugins, which would load mail and archives from Python's own library for nothing: a
thirtieth of every start."""

from __future__ import annotations

import importlib
import os
import sys
from types import ModuleType
from typing import Any, Final

LOOKED_FOR_IN: Final = "pydantic.plugin._loader"
"""Even told that there are none, pydantic loads this module, and with it all that is needed to look."""


class _NoPlugins(ModuleType):
    """Stands in its place. Whatever else is asked of it is the real one's affair, which then comes back for good."""

    @staticmethod
    def get_plugins() -> tuple[()]:
        """None."""
        return ()

    def __getattr__(self, name: str) -> Any:
        if name.startswith("__"):
            raise AttributeError(name)
        if sys.modules.get(LOOKED_FOR_IN) is self:
            del sys.modules[LOOKED_FOR_IN]
        return getattr(importlib.import_module(LOOKED_FOR_IN), name)


def without_plugins() -> None:
    """Whatever else is installed beside the wizard has no say in how a file is read."""
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    sys.modules.setdefault(LOOKED_FOR_IN, _NoPlugins(LOOKED_FOR_IN))
