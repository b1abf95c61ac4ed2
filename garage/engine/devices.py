"""What kind of device asks, from what its browser says of itself; enough to be recognised by, and never trusted."""

KINDS = ("phone", "tablet", "computer", "unknown")
MOST = 400  # letters of what a browser says; a longer one tells no more

# In this order: what comes later stands in the words of what comes before too. From memory of what browsers send.
SYSTEMS = (
    ("iphone", "iPhone"),
    ("ipad", "iPad"),
    ("android", "Android"),
    ("cros", "ChromeOS"),
    ("windows", "Windows"),
    ("mac os x", "macOS"),
    ("linux", "Linux"),
)
BROWSERS = (("edg", "Edge"), ("firefox", "Firefox"), ("fxios", "Firefox"), ("chrome", "Chrome"), ("safari", "Safari"))


def device_kind(agent: str) -> str:
    """One of `KINDS`, from a User-Agent header.

    `Mobi` is what browsers of phones say, and Android without it is a tablet (MDN, "Browser detection using the
    user agent", from memory).
    """
    said = agent[:MOST].lower()
    if "ipad" in said or "tablet" in said or ("android" in said and "mobi" not in said):
        return "tablet"
    if "mobi" in said or "iphone" in said:
        return "phone"
    return "computer" if _named(said, SYSTEMS) else "unknown"


def device_words(agent: str) -> str:
    """`Android, Firefox`; empty where nothing is recognised."""
    said = agent[:MOST].lower()
    return ", ".join(filter(None, [_named(said, SYSTEMS), _named(said, BROWSERS)]))


def _named(said: str, names: tuple[tuple[str, str], ...]) -> str:
    return next((words for sign, words in names if sign in said), "")
