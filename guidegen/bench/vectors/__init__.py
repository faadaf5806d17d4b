"""PDF and DXF in → drawings in mm out, checked against a length that their author states."""
