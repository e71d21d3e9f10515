"""Random cases are not timed here: a busy computer must not fail a test. Ctrl+C is heard, however the run began."""

from __future__ import annotations

import signal

from hypothesis import HealthCheck, settings

settings.register_profile("untimed", deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("untimed")

# A run begun in the background of a shell ignores Ctrl+C, and so would every program that the tests start.
signal.signal(signal.SIGINT, signal.default_int_handler)
