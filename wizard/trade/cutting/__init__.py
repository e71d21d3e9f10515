"""The cutting plan: strips of sections on lengths of cloth."""
