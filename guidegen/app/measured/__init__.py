"""Made to measure in the reader's browser: what press hands to the page, and what runs there.

`packed.py` writes records as JSON and reads them; `order.py` is what a guide's page needs to know;
`making.py` answers a reader's measurements and is all that runs in the browser. `bundle.py` and
`packages.py` gather, at press, the program that runs it.
"""
