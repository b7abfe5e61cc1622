"""One order line against the shelf: accepted, held with a question, or refused with its reasons.

Pure: values in, an answer out; no records are touched here.
"""
