"""What it would take to make an event, tried on the plan; what-if trials."""
