"""The day pack: everything of one run on paper and as tables, made from the records alone.

The same records give the same bytes; a pack is written aside and moved into place whole.
"""
