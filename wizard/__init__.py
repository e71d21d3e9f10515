"""railskirt: a guided wizard for making sectional bed skirts. Holds the version only."""

__version__ = "0.1.0"
