"""What every drawing is made with: canvas, lettering, hatches, scales, labels, dimensions."""
