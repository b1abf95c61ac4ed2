"""Taps that more than one journey makes."""

import re


def finish(page, name="Finish"):
    """One tap, or the form that it leads to, left as it is drawn, or with nothing opened where that is asked."""
    tap = page.locator("main").locator("a, button").filter(has_text=re.compile(f"^\\s*{name}")).first
    leads = tap.evaluate("tap => tap.tagName") == "A"
    tap.click()
    if leads:
        page.wait_for_url(re.compile("/finish/$"))
        nothing = page.get_by_label("Nothing was opened, moved or changed")
        if nothing.count() and not page.locator("[name=kinds]:checked").count():
            nothing.check()  # work by hand of which nobody said what it opens is asked
            why = page.get_by_label("Why nothing was opened")
            if why.count():
                why.fill("only looked at")
        page.get_by_role("button", name="Finish", exact=True).click()
        page.wait_for_url(lambda url: not url.endswith("/finish/"))
