"""Packs for many people: what is made anew, on which machines, and where it is kept."""
