"""What sums know of a car, and how those that were kept stand."""
