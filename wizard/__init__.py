"""railskirt: a guided wizard for making sectional bed skirts. Holds the version only."""

__version__ = "2.0.0"
