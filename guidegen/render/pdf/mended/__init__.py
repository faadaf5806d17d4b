"""What WeasyPrint does twice or slowly, mended where it still is as described."""
