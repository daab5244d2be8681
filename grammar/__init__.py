"""Knows text and nothing of training: the one grammar, the parser, the syntax tree and its spans."""
