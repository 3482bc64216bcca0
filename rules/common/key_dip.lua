-- Key dip: how far the key goes down at its front edge.
return step {
  id = "key_dip", title = "Key dip", stage = "set", unit = "mm", scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = "Set the block on the level key and press with the same weight each time. Read at the front edge.",
  why = "Dip pays for blow and aftertouch. Pressure changes the reading, so keep it the same.",
  target = by_colour {
    naturals = range(9.9, 10.7, 10),
    sharps = range(9.4, 10.4, 10),      -- what leaves about 2 mm of sharp above the naturals
  },
  resolution = 0.05, gauge = 0.1, even = 0.25,
  fix = { "front_punching" },
  gauge_name = "dip block",
  source = "list-2008-dip; list-2009-blow; list-1998-sharp-height; page-dealer-sharps; geometry: sharps",
}
