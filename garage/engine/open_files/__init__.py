"""A garage as open files: what is in them, how a row is written, and how numbers are given anew."""
