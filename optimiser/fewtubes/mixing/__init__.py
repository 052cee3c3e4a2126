"""From paint to colour: films over paper, mixtures and recipes."""
