"""The plan on the wall: the problem made from the garage, plans kept, drawn and compared."""
