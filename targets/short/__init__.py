"""The short version: a session cut to the time that there is."""
