"""From the bench to the build file: what an author has in → drawings as guidegen reads them."""
