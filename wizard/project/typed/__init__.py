"""What people type, read into exact values, and kept as they typed it.

The same readers serve the screens, the prompts and the file, so that they cannot drift. How a file holds them stands in
:mod:`wizard.project.typed.fields`.
"""

from wizard.project.typed.lengths import read_length
from wizard.project.typed.misread import Misread
from wizard.project.typed.numbers import read_money, read_number, read_percent, read_whole, read_yes_no
from wizard.project.typed.values import TypedLength, TypedMoney, TypedNumber, TypedPercent, Unusable

__all__ = [
    "Misread",
    "TypedLength",
    "TypedMoney",
    "TypedNumber",
    "TypedPercent",
    "Unusable",
    "read_length",
    "read_money",
    "read_number",
    "read_percent",
    "read_whole",
    "read_yes_no",
]
