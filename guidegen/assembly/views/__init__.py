"""Sheets in space in → what is seen of them, and files for others."""
