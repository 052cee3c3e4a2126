"""The pinks, magentas and rose-violets of the demo catalogue."""

PINK_PIGMENTS = {
    "pr81-vivid-pink",
    "pv1-vivid-violet-pink",
    "pr122-magenta",
    "pr202-deep-magenta",
    "pv19-rose",
    "pv19-quinacridone-red",
    "pr209-coral-red",
    "pv55-purple",
}
