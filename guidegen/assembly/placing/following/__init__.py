"""What follows a part that is placed by itself: by a seam, or in a row of plates that move."""
