"""The soak: the real server under eight writers, killed at random moments; afterwards everything is counted."""
