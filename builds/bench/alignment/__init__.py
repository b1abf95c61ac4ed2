"""Sums of alignment: toe in every way it is read, the thrust line, caster by swinging, camber on a sloping floor."""
