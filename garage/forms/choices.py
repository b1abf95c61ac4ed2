"""What a choice says of a row that is not among those offered."""

NOT_HERE = {"invalid_choice": "That is not in this garage: choose from the list."}
