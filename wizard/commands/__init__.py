"""What railskirt does without a screen."""
