"""The models of guide.yaml, stock.yaml and site.yaml, and what they name: shapes, statements."""
