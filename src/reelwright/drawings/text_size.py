"""How wide a text is in our font: advance widths, so that labels can be laid out without a browser.

The numbers are the font's own advances in thousandths of the size, read from the three TTF files
of Source Sans Pro; a test holds them against the files. Kerning is left out: it only narrows.
"""

from reelwright.style import BOLD, REGULAR, SEMIBOLD

_FIRST = 32  # the space; printable ASCII follows in order


def _numbers(text: str) -> tuple[int, ...]:
    return tuple(int(part) for part in text.split())


_ASCII: dict[int, tuple[int, ...]] = {
    REGULAR: _numbers(
        "200 289 425 497 497 824 609 249 303 303 418 497 249 311 249 350 497 497 497 "
        "497 497 497 497 497 497 497 249 249 497 497 497 425 847 544 588 571 615 527 "
        "494 617 652 263 480 579 486 727 647 664 566 664 569 534 536 645 515 786 513 "
        "476 539 303 350 303 497 500 542 504 553 456 555 496 292 504 544 246 247 495 "
        "255 829 547 542 555 555 347 419 338 544 467 718 446 467 425 303 241 303 497"
    ),
    SEMIBOLD: _numbers(
        "200 315 482 513 513 841 639 275 324 324 438 513 275 322 275 344 513 513 513 "
        "513 513 513 513 513 513 513 275 275 513 513 513 444 875 558 597 576 625 538 "
        "510 628 663 282 494 597 502 745 656 674 582 674 592 545 546 655 536 800 541 "
        "501 540 324 344 324 513 500 549 516 563 462 564 507 317 520 558 262 263 522 "
        "271 843 560 549 564 564 373 431 361 556 495 748 481 495 443 324 255 324 513"
    ),
    BOLD: _numbers(
        "200 340 536 528 528 857 667 300 344 344 457 528 300 332 300 339 528 528 528 "
        "528 528 528 528 528 528 528 300 300 528 528 528 463 903 573 605 582 635 548 "
        "524 638 674 301 509 614 518 762 665 684 596 684 613 556 556 665 556 813 567 "
        "525 541 344 339 344 528 500 555 527 573 467 573 518 341 534 571 276 278 548 "
        "286 857 572 555 573 573 398 443 383 568 523 776 514 521 460 344 268 344 528"
    ),
}

_OTHERS: dict[str, tuple[int, int, int]] = {
    "\u202f": (125, 125, 125),
    "\u2212": (497, 513, 528),
    "×": (497, 513, 528),
    "Ø": (664, 674, 684),
    "°": (331, 348, 365),
    "±": (497, 513, 528),
    "·": (249, 275, 300),
    "–": (480, 480, 480),
    "—": (800, 800, 800),
    "’": (249, 275, 300),
    "“": (425, 482, 536),
    "”": (425, 482, 536),
    "′": (249, 275, 300),
    "″": (426, 482, 537),
    "≥": (497, 513, 528),
    "≤": (497, 513, 528),
    "≈": (497, 513, 528),
    "½": (808, 827, 846),
    "¼": (781, 795, 809),
    "¾": (796, 807, 818),
    "→": (619, 618, 617),
    "Ω": (678, 695, 711),
    "µ": (562, 578, 594),
    "é": (496, 507, 518),
    "è": (496, 507, 518),
    "ä": (504, 516, 527),
    "ö": (542, 549, 555),
    "ü": (544, 556, 568),
    "ß": (576, 604, 632),
    "²": (367, 372, 376),
    "³": (367, 372, 376),
}

_PLACE = {REGULAR: 0, SEMIBOLD: 1, BOLD: 2}
_UNKNOWN = 700  # wider than nearly all letters: an unknown one gets too much room, never too little


def text_width(text: str, *, size: float, weight: int = REGULAR) -> float:
    """Return the width of one line in the unit of ``size``; an upper bound, kerning left out."""
    widths = _ASCII[weight]
    total = 0
    for letter in text:
        place = ord(letter) - _FIRST
        if 0 <= place < len(widths):
            total += widths[place]
        else:
            total += _OTHERS.get(letter, (_UNKNOWN,) * 3)[_PLACE[weight]]
    return total * size / 1000
