"""Addresses of printed sheets, and one row of each thing that they name."""

# name: what its address names, whom it serves, and whether it is read, drawn and sent, or sent.
ADDRESSES: dict[str, tuple[str, str, str]] = {
    "pull_sheet": ("", "READS_OWN", "read"),
    "card_sheet": ("", "READS_OWN", "read"),
    "wall_sheet": ("", "READS_OWN", "read"),
    "owed_sheet": ("", "READS_OWN", "read"),
    "drive_tag_sheet": ("vehicle", "READS", "read"),
    "story_sheet": ("pictured_car", "READS", "read"),
    "setup_sheet": ("vehicle", "READS", "read"),
    "pack_sheet": ("event", "READS", "read"),
}


def rows(cast):
    return {}
