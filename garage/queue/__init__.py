"""What is kept of the queue beside the server: its table."""
