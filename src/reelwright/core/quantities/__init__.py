"""Constants with their sources, conversion, reading what people type, display.

    guard.py                refusals that value objects share
    constants.py            constants of nature and of agreement, each with its source
    convert.py              units into SI, the American wire gauge
    measured.py, money.py   values: a number with its spread, an amount with its currency
    tokens.py, numerals.py, cursor.py, number_grammar.py
                            the tokenizer and the steps under every reader
    length_text.py          lengths as customers type them (length_units, _measure, _grammar: how
                            they are written; length_doubts: when to ask; length_search: sentences)
    scaled_text.py          area, loss and capacitance per length, frequency, bit rate,
                            temperature, percent
    gauge_text.py, count_text.py, money_text.py, date_text.py, tolerance_text.py
    marks.py, words.py      the marks of our typography; counts, lists and sentences
    show.py, show_scaled.py, show_office.py
                            how numbers and lengths, what takes a prefix, money and dates look

A reader returns what was typed beside what it was read as, or the question to ask; it raises
UnreadableQuantity for text that is not such a quantity at all.
"""
