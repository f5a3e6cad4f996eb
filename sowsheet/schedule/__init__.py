"""Dated batches out of a garden and a catalogue. A pure function: the same plan gives the same dates."""
