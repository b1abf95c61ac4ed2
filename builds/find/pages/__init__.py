"""What was found, and the pages of the garage among it."""
