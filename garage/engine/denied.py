"""What words say that there is nothing wrong: “no play found”, “not loose”. Common practice, no source."""

import re

# Only what is a fault by being there; no brakes, no pedal, not tight, not stopping are faults by what is not.
_NO = r"(?:play|leak\w*|crack\w*|damage|wear|rust|corrosion|chafing|looseness|fault\w*|defect\w*)"
_NOT = (
    r"(?:loose|leaking|weeping|dripping|cracked|worn|bent|damaged|frayed|chafed|perished|corroded|rusty|missing|broken)"
)
_SIGN = r"(?:any\s+|visible\s+|obvious\s+|signs?\s+of\s+|trace\s+of\s+)*"
_DENIED = re.compile(
    rf"\b(?:(?:no|without|not\s+any)\s+{_SIGN}{_NO}(?:\s+(?:found|seen|felt|there|anywhere|at\s+all))?"
    rf"|(?:not|none|nothing|isn[’']t|aren[’']t)\s+{_NOT})"
    r"(?=\s*(?:$|[.,;!)]|and\b|or\b|(?:in|on|at|of|anywhere|checked|found|seen|good|ok|okay|all|sound)\b))",
    re.IGNORECASE,
)
# Where words take back or limit what they say, and of what has to move, nobody can be sure.
_DOUBT = re.compile(
    r"\?|\b(?:but|however|although|though|except|until|till|unless|if|when|whenever|why|yet|only|enough|longer|more|"
    r"now|after|before|once|than|free|pedal\w*|push\s*rods?|cables?|levers?|throttle|accelerator|clutch)\b",
    re.IGNORECASE,
)


def undenied(text: str) -> str:
    """The text without what it says is not wrong; all of it where it leaves a doubt."""
    return text if _DOUBT.search(text) else _DENIED.sub(" . ", text)


def denies(text: str) -> bool:
    """Whether it says of something that it is not wrong, and leaves no doubt of that."""
    return undenied(text) != text
