"""A mesh of a body form or a prop in → flat pieces, their seams and how far to trust them out."""
