"""The pages at arm's length: one instruction, one large number, one action."""
