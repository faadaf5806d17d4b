"""Checks of the work: order, parts, drying, what is made and what is joined."""
