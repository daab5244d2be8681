"""Knows training and nothing of paper: names, rules, the clock, trimming, diagnostics."""
