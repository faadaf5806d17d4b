"""Build file and one size in → pieces ready to cut, with seams, marks and allowances."""
