"""Photos of templates in → their outlines in true size out, and how far to trust them.

`strips` and `frame` are the printed markers, `lens` and `solve` the camera, `flat` the photo laid
flat, `region` the piece in it, `edges` its edge to sub-pixel, `fitting/` lines, arcs and curves.
"""
