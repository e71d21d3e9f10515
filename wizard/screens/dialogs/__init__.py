"""Windows over the screen, each typed by the answer it gives."""
