"""Pages shared by a link, for whoever holds it."""
