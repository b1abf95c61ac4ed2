"""Jobs, links, hold points, spans of work: the rows, and what stands open."""
