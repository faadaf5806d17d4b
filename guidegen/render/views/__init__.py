"""Records in → views: what templates see, in words."""
