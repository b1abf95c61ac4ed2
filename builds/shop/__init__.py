"""How warm and dry the shop is, products and their cures, what is curing now."""
