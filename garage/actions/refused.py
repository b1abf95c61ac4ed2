"""The one exception of actions: something that may not be, said in one sentence."""


class Refused(Exception):
    """`str()` is the sentence shown to the person, at the field or as a message."""
