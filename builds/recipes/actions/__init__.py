"""Recipes put onto cars, what they ask of the shelf, and a garage's own copies of them."""
