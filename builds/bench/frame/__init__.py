"""What all sums share: asking, reading, saying and drawing."""
