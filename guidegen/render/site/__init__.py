"""Everything in → pages of the site, and what machines read about it."""
