-- Key level after playing-in: what is asked of a finished job. Looser than the first setting, as felt settles.
return step {
  id = "settled_level", title = "Key level after playing-in", stage = "finish", unit = "mm", scope = "naturals",
  need = "optional",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "As key level, after the piano has been played in. Write + when a key stands high, - when it is low.",
  why = "The first level was set within 0.1 mm; a finished job may keep 0.15.",
  target = by_choice { "key_line",
    straight = range(-0.15, 0.15, 0),
    crowned = graded {                  -- the same arc as key level
      { "A0", range(-0.15, 0.15, 0) },
      { "G2", range(0.45, 0.75, 0.6) },
      { "E4", range(0.65, 0.95, 0.8) },
      { "D6", range(0.45, 0.75, 0.6) },
      { "C8", range(-0.15, 0.15, 0) },
    },
  },
  resolution = 0.05, gauge = 0.05,
  fix = { "balance_punching" },
  method = "long straightedge",
  unsourced = true, source = "common-practice",
}
