"""Bytes in → files under out/, swapped in whole."""
