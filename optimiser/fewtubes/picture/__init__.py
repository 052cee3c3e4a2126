"""Pictures of a plan as values, and their drawing as SVG and PNG."""
