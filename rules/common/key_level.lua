-- Key level: each natural's distance from the straightedge, with its sign.
return step {
  id = "key_level", title = "Key level", stage = "keys", unit = "mm", scope = "naturals",
  ask = "Lay the straightedge over the settled naturals. Write + when a key stands high, - when it is low.",
  why = "Dip is read against the neighbours, and a low key loses aftertouch.",
  target = range(-0.1, 0.1, 0),         -- straight line; for a crowned one, change this target
  resolution = 0.05, gauge = 0.05,
  fix = { "balance_punching" },
  masks = { "key_dip" },
  method = "long straightedge",
  source = "docs/numbers.md#key_level", unsourced = true,   -- no tolerance in mm has been published
}
