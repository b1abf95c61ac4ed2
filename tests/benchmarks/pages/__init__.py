"""What every page costs in a garage that was kept for years."""
