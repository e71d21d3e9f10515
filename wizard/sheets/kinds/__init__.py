"""The sheets: what each one is for, and what stands on it."""
