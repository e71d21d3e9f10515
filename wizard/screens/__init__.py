"""The guided wizard on a terminal."""
