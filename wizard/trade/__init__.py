"""The arithmetic of the trade: pure, frozen and exact; knows no file, screen, model or clock."""
