"""Paper: plain content in, PDF bytes out, one folder a paper.

Each paper is a frozen content value, a Typst template beside it and ``render_<paper>(content)``.
Content holds text already written for people (units, signs and dates in place) and drawings as SVG;
nothing is computed here, no clock is read, and the same content gives the same bytes.
"""
