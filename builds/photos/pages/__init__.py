"""What pages about photos show."""
