"""The pre-event sheet, the do-not-drive tag, the setup sheet and the plan for the wall."""
