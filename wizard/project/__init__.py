"""What the maker says and did: the project file, its templates and its keeping."""

from __future__ import annotations

from wizard.project.no_plugins import without_plugins

without_plugins()
