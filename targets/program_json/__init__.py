"""The compiled program as JSON, for other tools."""
