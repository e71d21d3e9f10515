"""A plan written out: text, JSON and drawings."""
