"""Sheets on paper and on a phone: one HTML file."""
