"""The cutting plan: strips of sections on lengths of cloth."""

from wizard.trade.cutting.door import lay_out

__all__ = ["lay_out"]
