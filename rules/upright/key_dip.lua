-- Key dip of an upright.
return step {
  id = "key_dip", title = "Key dip", stage = "set", unit = "mm", scope = "every",
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = "Set the block on the level key, press with the same weight each time, read at the very front edge.",
  why = "Dip pays for blow, let-off and aftertouch.",
  target = by_colour {
    naturals = range(9.9, 10.5, 10),
    sharps = range(9.4, 10.4, 10),      -- what leaves about 2 mm of sharp above the naturals
  },
  resolution = 0.05, gauge = 0.1, even = 0.25,
  fix = { "front_punching" },
  gauge_name = "dip block",
  source = "list-1998-upright; digest-2010-upright; geometry: sharps",
}
