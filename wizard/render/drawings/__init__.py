"""What is drawn: the bed, a section, the top edge, the roll."""
