"""Two-dimensional codes as SVG, read back from the rendered page by the tests."""

import io

import segno

_QUIET_MODULES = 4  # ISO/IEC 18004 asks four light modules around a QR code


def qr_svg(text: str) -> str:
    """A QR code of ``text`` (error correction M) with its quiet zone; the page gives its size."""
    code = segno.make(text, error="m", micro=False)
    out = io.BytesIO()
    code.save(
        out,
        kind="svg",
        border=_QUIET_MODULES,
        omitsize=True,
        xmldecl=False,
        svgclass=None,
        lineclass=None,
        light="white",
        title=f"Code that reads {text}",
    )
    return out.getvalue().decode("utf-8")
