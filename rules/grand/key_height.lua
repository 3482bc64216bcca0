-- Key height on samples. The maker's figure for the model comes before this one.
return step {
  id = "key_height", title = "Key height", stage = "keys", unit = "mm", scope = "naturals", need = "samples",
  plain = "Keys: level, evenly spaced, free to move",
  ask = "Measure from the keybed, not from the keyframe, to the top front edge of the sample naturals.",
  why = "Height comes first: level, dip and the hammer line all hang on it.",
  target = range(64, 68, 66),
  resolution = 0.1, gauge = 0.3, even = 0.3, breaks = false,
  fix = { "back_rail_cloth", "balance_punching" },
  method = "rule on the keybed",
  source = "page-rebuilder: one model, 65.9 mm; " ..
    "page-service: another datum", unsourced = true,
}
