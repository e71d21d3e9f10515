"""The wizard in plain lines: for screen readers, for terminals that only print, and for scripts."""
