"""A talk with captions in → a worksheet: a build file that says what is still to be written."""
