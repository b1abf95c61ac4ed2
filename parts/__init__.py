"""Parts on the shelf."""
