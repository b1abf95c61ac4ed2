"""What the states of a job are called, and in which it is over."""

STATE_WORDS = {
    "open": "open",
    "in_hand": "in hand",
    "waiting": "put down",
    "held": "held",
    "done": "done, not signed",
    "signed": "signed",
    "dropped": "dropped",
}
LOOKED_FOR = "done, and waits for a second pair of eyes"  # held, with its work over
OVER = ("done", "signed", "dropped")
