"""One part and the numbers of a size in → its finished outline, its edges as yet untouched."""
