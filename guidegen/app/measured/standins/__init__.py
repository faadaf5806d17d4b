"""What stands in the browser for libraries that are not built for it, each as thin as can be.

`geos.py` is asked in place of Shapely, of the same GEOS in another build. Pillow, which ReportLab
imports and template pages do not use, is an empty module there. Nothing here is imported elsewhere.
"""
