"""A file of a mesh in → its triangles in mm, mended where it was torn, or a refusal out."""
