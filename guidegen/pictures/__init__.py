"""Pieces and plans in → SVG drawings out."""
