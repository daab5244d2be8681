"""Source in the language: the movement library `basics` and the worked examples."""
