"""Commands that keep a catalogue of one's own, one module each."""
