"""Cars: their page, what happened to them lately, the key board of them all."""
