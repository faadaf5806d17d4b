"""Photos of a template → its drawing, a page about it, and strips to print."""
