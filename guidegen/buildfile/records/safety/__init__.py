"""Cautions, and the official statements that they may carry."""
