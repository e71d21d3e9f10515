"""The pages of the interview on the screen: their layout, their keys, and what the keys do."""
