"""Every piece to cut or buy: the one source of mass, pattern, price, step and strength."""
