"""Allowances and fullness in the project file, each field the one of the same name in the job."""

from collections.abc import Callable
from typing import Any, ClassVar

from wizard.project.tables import Table
from wizard.project.typed.fields import AllowanceField, FullnessField, PieceField, ToleranceField
from wizard.trade import job


class AllowancesTable(Table, frozen=True):
    """What the cuts allow for: `allowances`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Allowances

    join: AllowanceField | None = None
    """Join seam, each side."""
    end_hem: AllowanceField | None = None
    """All the cloth the end hem takes, at each end."""
    top: AllowanceField | None = None
    """How far the raw edge lies above the drop line."""
    squaring: AllowanceField | None = None
    """Cut off to square the end of each length."""
    least_piece: PieceField | None = None
    """Least cut width of a piece."""
    floor_tolerance: ToleranceField | None = None
    """How far the drops of one section may differ before the floor counts as uneven."""
    run_tolerance: ToleranceField | None = None
    """How far the two run readings may differ before a post counts as leaning."""


class FullnessTable(Table, frozen=True):
    """How full, and how the widths are joined: `fullness`."""

    builds: ClassVar[Callable[..., Any] | None] = job.Fullness

    aim: job.Aim | None = None
    """A chosen number, or as full as the owned cloth allows."""
    want: FullnessField | None = None
    """Flat finished width over gathered length, 1 or more."""
    joins: job.Joins | None = None
    """How widths are shared between sections."""
    surplus: job.Surplus | None = None
    """Whole and half widths: what is done with what is over."""
