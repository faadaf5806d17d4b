"""Pieces and sheets in → cut plans, verified whoever made them."""
