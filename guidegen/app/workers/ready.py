"""Imported by the process that workers are copies of → the library that sets documents, loaded.

Only that process imports this module: it has no work of its own, and starts no thread.
"""

import signal
from contextlib import suppress

from guidegen.errors import MissingLibrary
from guidegen.render.pdf.html_pdf import screen_profile

# Ctrl-C is for the press, which ends its workers itself.
signal.signal(signal.SIGINT, signal.SIG_IGN)
# What is missing is told by the first document that needs it.
with suppress(MissingLibrary):
    screen_profile()
