"""Counted things and light circuits of one size → whether they fit, meet and light."""
