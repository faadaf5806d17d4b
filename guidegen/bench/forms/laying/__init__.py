"""A panel's triangles by the lengths of their sides in → places in the plane out."""
