"""Guide, pieces, plans and drawings in → HTML and PDF bytes out."""
