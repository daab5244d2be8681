"""The checks: one function for each, with its code, title, severity, source and examples."""
