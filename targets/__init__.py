"""Knows people, paper and screens: one folder for each thing that comes out, and the ways in which people ask."""
