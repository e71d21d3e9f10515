"""The parts that screens, panes and dialogs are made of."""
