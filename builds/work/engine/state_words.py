"""What the states of a job are called, and in which it is over."""

STATE_WORDS = {
    "open": "open",
    "in_hand": "in hand",
    "waiting": "put down",
    "held": "held",
    "done": "done",
    "signed": "signed",
    "dropped": "dropped",
}
LOOKED_FOR = "done, and waits for a second pair of eyes"  # held, with its work over
UNSIGNED = "done, not signed"  # of a job that somebody else has still to look at
OVER = ("done", "signed", "dropped")
