"""SVG text in → pieces as their author drew them: outline, corners, inner lines. mm."""
