"""The interview as data, and the session that walks it."""
