"""HTML or drawings in → PDF bytes, finished for viewers, printers, presses and archives."""
