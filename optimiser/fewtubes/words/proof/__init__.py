"""What is proven and what is not: every claim about proof is worded here and nowhere else.

Each function takes what is known, as a standing or as whether something is proven, so that no
other module can say more than that. "Best" is only said of what is proven; otherwise it is said
what was found, and that better may exist.
"""
