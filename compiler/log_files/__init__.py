"""Logs that come back as tables: CSV, and XLSX, in the shape of the blank ones that a pack holds."""
