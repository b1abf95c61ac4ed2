"""The one exception of actions: something that may not be, said in one sentence."""


class Refused(Exception):
    """`str()` is the sentence shown to the person, at the `field` it names or as a message."""

    def __init__(self, sentence: str, field: str = "") -> None:
        super().__init__(sentence)
        self.field = field
