"""The pages as data: what each asks and when; what they say is in `texts.txt` and `choices.txt`."""
