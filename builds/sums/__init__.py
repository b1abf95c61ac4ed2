"""Pages of the bench sums, worked out as somebody types, beside the car they are for."""
