"""How each car gets to its event, and what stands against that."""
