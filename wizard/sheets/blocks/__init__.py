"""The text sheet, block by block."""
