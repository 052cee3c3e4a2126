"""All scenarios of a folder: mixed for once, answered side by side, taken up where it broke off."""
