"""The pages that stand before templates: how to print, join, trace, and what lies where."""
