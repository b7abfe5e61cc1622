"""Trials: records, designs, the model of the responses, proposals, windows."""
