"""What is asked of a benchmark or a longer run on its command line.

The standard library only: it runs where nothing but the product and its needs is installed.
"""

from __future__ import annotations

import argparse


def options(doc: str | None, **usual: object) -> argparse.Namespace:
    """What is asked for: each with its usual value, or a tuple of choices, the usual one first."""
    parser = argparse.ArgumentParser(description=doc, formatter_class=argparse.RawDescriptionHelpFormatter)
    for name, value in usual.items():
        if isinstance(value, tuple):
            parser.add_argument(f"--{name}", choices=value, default=value[0])
        else:
            parser.add_argument(f"--{name}", type=type(value), default=value)
    return parser.parse_args()
