"""railskirt: a guided wizard for making sectional bed skirts. Holds the version only."""

__version__ = "3.2.0"
