"""The main job: from a catalogue and a scenario to a plan."""
