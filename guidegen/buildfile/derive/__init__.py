"""Typed content in → what follows from it: values of a size, cautions and waits of a step."""
