"""What is done to a job: written down, linked, started, stopped, found, signed; its log."""
