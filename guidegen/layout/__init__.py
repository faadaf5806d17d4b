"""Pieces in → plans out: foam sheets, template pages, materials, days and waits."""
