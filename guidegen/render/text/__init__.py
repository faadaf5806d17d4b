"""Words in → HTML: templates, CommonMark, lengths, links, and the caches beside them."""
