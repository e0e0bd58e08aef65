"""Air and vacuum: the air of a site, a pump-down and a hold read, the gas that stays."""
