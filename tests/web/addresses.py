"""Every page there is, and which roles it is for."""

from tests.web.conftest import Taken

EVERYBODY = frozenset({"ada", "olga", "ben", "vic"})
BENCH = frozenset({"ada", "ben"})
DESK = frozenset({"ada", "olga"})
ASKED = (
    "/ask?length=3+m&signal=serial+video+1.485+Gb%2Fs&cable=SW-60"
    "&end_a=SW-PLUG&end_b=SW-PLUG&space=in+the+open"
)
REFUSED = (
    "/ask?length=900+m&signal=serial+video+1.485+Gb%2Fs&cable=you+choose"
    "&end_a=SW-PLUG&end_b=SW-PLUG"
)
ARRIVES = ASKED.replace("/ask?", "/ask/arrives?")


def pages(taken: Taken) -> dict[str, frozenset[str]]:
    """Return every page by address with the people who may see it."""
    return {
        "/": EVERYBODY,
        f"/orders/{taken.line_id}": EVERYBODY,
        "/ask": EVERYBODY,
        ASKED: EVERYBODY,
        REFUSED: EVERYBODY,
        ARRIVES: EVERYBODY,
        "/cables": EVERYBODY,
        "/cables/SW-60": EVERYBODY,
        "/reels": EVERYBODY,
        "/reels?cable=SW-60&colour=BK&empty=yes": EVERYBODY,
        f"/reels/{taken.reel}": EVERYBODY,
        "/reels/R-2": EVERYBODY,
        "/lots/L-1": EVERYBODY,
        "/cut-list": EVERYBODY,
        "/grid": EVERYBODY,
        "/grid?family=coax&carry=microphone": EVERYBODY,
        "/grid/SW-60/SW-PLUG": EVERYBODY,
        "/set-ups": EVERYBODY,
        "/set-ups/S-1": EVERYBODY,
        "/set-ups/S-1?rev=A": EVERYBODY,
        "/set-ups/S-1/strip": EVERYBODY,
        "/set-ups/S-1/sheet.pdf?rev=A": EVERYBODY,
        "/set-ups/S-1/draft": BENCH,
        "/dies": EVERYBODY,
        "/dies/cavities/F-6.48": EVERYBODY,
        "/dies/presses/PR-1": EVERYBODY,
        "/instruments": EVERYBODY,
        "/windows": EVERYBODY,
        "/windows/new?process=weld&cable=SW-60&connector=SW-PLUG": BENCH,
        f"/windows/{taken.window}": EVERYBODY,
        f"/windows/{taken.window}/stands": EVERYBODY,
        f"/windows/{taken.window}/plot": EVERYBODY,
        f"/windows/{taken.window}/designs": EVERYBODY,
        "/search?q=farrow+nell": EVERYBODY,
        "/search?q=SW": EVERYBODY,
        "/bench": BENCH,
        "/bench/pulls/S-1": BENCH,
        "/bench/heights/S-1": BENCH,
        "/bench/strips/S-1?rev=A": BENCH,
        "/bench/files": BENCH,
        "/bench/files/readings.csv": BENCH,
        f"/bench/trials/{taken.window}": BENCH,
        f"/bench/cut/{taken.reel}": BENCH,
        f"/bench/cut/{taken.reel}/flaw": BENCH,
        f"/bench/cut/{taken.reel}/count": BENCH | DESK,
    }


def is_file(address: str) -> bool:
    """Return whether an address is taken away as a file, and no page."""
    return address.partition("?")[0].endswith((".csv", ".pdf"))
