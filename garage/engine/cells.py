"""Cells of a spreadsheet: text taken for a formula is guarded, and read back exactly."""

# What starts a formula, or hides what does, in the spreadsheets in use. Source: OWASP Application
# Security Verification Standard 5.0, 1.2.10; the full-width forms and NUL are ours besides.
STARTS_FORMULA = frozenset("=+-@\t\r\n\0＝＋－＠")
GUARD = "'"


def guarded(text: str) -> str:
    """The cell for a text: an apostrophe before what a spreadsheet would run.

    One that starts with an apostrophe gets another, so that `unguarded` gives back every text.
    """
    starts = text[:1]
    return GUARD + text if starts and (starts in STARTS_FORMULA or starts == GUARD) else text


def unguarded(cell: str) -> str:
    """The text of a cell: without the apostrophe that `guarded` put there, else as it is."""
    follows = cell[1:2]
    if cell[:1] == GUARD and follows and (follows in STARTS_FORMULA or follows == GUARD):
        return cell[1:]
    return cell
