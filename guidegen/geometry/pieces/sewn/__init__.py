"""Cloth pieces: opened for their pleats, darts trued, edges widened for casings."""
