"""Events and the cars entered for them."""
