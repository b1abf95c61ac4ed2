"""The thinking: plain Python, frozen data in, frozen data out."""
