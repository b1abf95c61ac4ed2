"""Template tags of the work."""
