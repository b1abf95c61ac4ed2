"""How long paint, glue and filler take at the temperature of the shop."""
