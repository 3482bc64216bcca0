-- Key level: each natural's distance from the straightedge, with its sign.
return step {
  id = "key_level", title = "Key level", stage = "keys", unit = "mm", scope = "naturals",
  plain = "Keys: level, evenly spaced, free to move",
  ask = by_choice { "key_line",
    straight = "Lay the straightedge over the settled naturals. Write + when a key stands high, - when it is low.",
    crowned = "Lay the straightedge from end to end on the outermost naturals, raised on two blocks of one size. " ..
      "Write how far each settled key stands above the line through the ends.",
  },
  why = "Dip is read against the neighbours, and a low key loses aftertouch.",
  target = by_choice { "key_line",
    straight = range(-0.1, 0.1, 0),
    crowned = graded {                  -- an arc: three quarters of its height half way to either end
      { "A0", range(-0.1, 0.1, 0) },
      { "G2", range(0.5, 0.7, 0.6) },
      { "E4", range(0.7, 0.9, 0.8) },
      { "D6", range(0.5, 0.7, 0.6) },
      { "C8", range(-0.1, 0.1, 0) },
    },
  },
  resolution = 0.05, gauge = 0.05,
  fix = { "balance_punching" },
  method = "long straightedge",
  source = "articles-key-dip: the smallest paper", unsourced = true,   -- no tolerance in mm has been published
}
