"""What people type, read into exact values that remember how they were typed.

The same readers serve the screens, the prompts and the file, so that they cannot drift. `field_values` reads by the
declaration of a field.
"""

from wizard.project.parse.length_text import read_length
from wizard.project.parse.misread import Misread
from wizard.project.parse.number_text import read_money, read_number, read_percent, read_whole

__all__ = ["Misread", "read_length", "read_money", "read_number", "read_percent", "read_whole"]
