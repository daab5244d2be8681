"""The checks, a module for each family; all of them together stand in `registry.py`."""
