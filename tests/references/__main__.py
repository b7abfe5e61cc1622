"""Write docs/references.md anew."""

import sys

from tests.references.page import PAGE, all_checks, all_left_out, page_text

if __name__ == "__main__":
    text = page_text(all_checks(), all_left_out())
    PAGE.parent.mkdir(exist_ok=True)
    PAGE.write_text(text, encoding="utf-8")
    sys.stdout.write(f"{PAGE.name}: {len(text.splitlines())} lines\n")
