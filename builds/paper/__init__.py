"""The pre-event sheet, the do-not-drive tag and the setup sheet."""
