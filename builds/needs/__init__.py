"""What jobs need from the shelf, who gets it first, what is to be bought."""
