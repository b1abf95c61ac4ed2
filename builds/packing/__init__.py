"""Pack lists: what goes into the van for an event."""
