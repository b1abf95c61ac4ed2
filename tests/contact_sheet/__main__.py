"""Opens every page of a demo garage, takes its picture, prints how high it is as it opens.

usage: python -m tests.contact_sheet [--to pictures] [--jobs 71] [--only plan_page,today]
"""

import argparse
import tempfile
from collections.abc import Iterable
from pathlib import Path
from urllib.parse import urljoin, urlsplit

from playwright.sync_api import BrowserContext, Page, sync_playwright

from tests.contact_sheet import garage
from tests.contact_sheet.sheet import contact_sheet

SIZES = {390: 844, 1280: 900}
SCHEMES = ("light", "dark")
SCREENS = 3  # as many a page may be high on a phone
CHROMIUM = "/usr/bin/chromium"
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-background-networking"]
HEIGHT = "document.documentElement.scrollHeight"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--to", type=Path, default=garage.ROOT / "pictures")
    parser.add_argument("--jobs", type=int, default=0, help="fill the first car up to so many jobs")
    parser.add_argument("--only", default="", help="names of addresses, such as plan_page,today")
    given = parser.parse_args()
    given.to.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        port = garage.free_port()
        garage.prepare(Path(folder), port)
        garage.load(given.jobs)
        link = garage.sign_in_link()  # before Playwright, whose loop in this thread the database does not like
        with garage.server(port) as address, sync_playwright() as playwright:
            browser = playwright.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
            context = browser.new_context()
            page = context.new_page()
            page.goto(link)
            page.get_by_role("button", name="Sign in").click()
            page.wait_for_load_state()
            pages = crawl(page, address)
            wanted = [name for name in given.only.split(",") if name]
            shown = {name: path for name, path in pages.items() if not wanted or name.split("?")[0] in wanted}
            print_table(take_all(context, address, shown, given.to))
            browser.close()


def crawl(page: Page, address: str) -> dict[str, str]:
    """One address of every name that a link of some page leads to, parts of a page by themselves."""
    found, ahead = {}, ["/"]
    while ahead:
        path = ahead.pop(0)
        name = name_of(path)
        if name is None or name in found:
            continue
        answer = page.request.get(address + path)
        if not answer.headers.get("content-type", "").startswith("text/html"):
            continue
        found[name] = path
        page.goto(address + path)
        links = page.eval_on_selector_all("a[href]", "links => links.map(link => link.href)")
        ahead += [_path(link) for link in links if urljoin(link, "/") == f"{address}/"]
    return found


def _path(link: str) -> str:
    parts = urlsplit(link)
    return f"{parts.path}?{parts.query}" if parts.query else parts.path


def name_of(path: str) -> str | None:
    """`vehicle_page`, or `vehicle_page?tab=log` for a part of it; None for what is no page."""
    from django.urls import Resolver404, resolve

    parts = urlsplit(path)
    try:
        name = resolve(parts.path).url_name
    except Resolver404:
        return None
    tab = next((piece for piece in parts.query.split("&") if piece.startswith(("tab=", "day="))), "")
    return f"{name}?{tab.split('=')[0] if tab.startswith('day') else tab}" if tab and name else name


def take_all(context: BrowserContext, address: str, pages: dict[str, str], to: Path) -> dict[str, dict[int, int]]:
    """Heights by name and width; beside them the pictures, and a sheet of all a size and scheme."""
    heights: dict[str, dict[int, int]] = {name: {} for name in pages}
    page = context.new_page()
    for width, height in SIZES.items():
        for scheme in SCHEMES:
            page.set_viewport_size({"width": width, "height": height})
            page.emulate_media(color_scheme=scheme)
            files = []
            for name, path in pages.items():
                page.goto(address + path, wait_until="networkidle")
                heights[name][width] = int(page.evaluate(HEIGHT))
                file = to / f"{name.replace('?', '-').replace('=', '-')}-{width}-{scheme}.png"
                page.screenshot(path=file, full_page=True)
                files.append((name, file))
            contact_sheet(files, to / f"all-{width}-{scheme}.png")
    page.close()
    return heights


def print_table(heights: dict[str, dict[int, int]]) -> None:
    print(f"{'page':34}{''.join(f'{width:>8}' for width in SIZES)}  screens of a phone")
    phone, tall = next(iter(SIZES.items()))
    for name, by_width in _highest_first(heights, phone):
        screens = by_width[phone] / tall
        mark = "  too high" if screens > SCREENS else ""
        print(f"{name:34}{''.join(f'{by_width[width]:>8}' for width in SIZES)}  {screens:.1f}{mark}")


def _highest_first(heights: dict[str, dict[int, int]], width: int) -> Iterable[tuple[str, dict[int, int]]]:
    return sorted(heights.items(), key=lambda item: -item[1][width])


if __name__ == "__main__":
    main()
