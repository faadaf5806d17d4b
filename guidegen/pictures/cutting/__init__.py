"""Drawings of cut plans and of lengths cut from packs."""
