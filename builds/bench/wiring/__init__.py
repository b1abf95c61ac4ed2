"""Sums of wiring: conductor, fuse, what a motor draws as it starts, what the alternator has to bear."""
