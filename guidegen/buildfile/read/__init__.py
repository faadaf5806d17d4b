"""Files in → typed content out, bounded: build files, themes, photos, bodies, people."""
