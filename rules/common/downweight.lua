-- Downweight: the least weight that moves the key slowly down. Read with upweight, one visit to each key.
return step {
  id = "downweight", title = "Downweight", stage = "weigh", unit = "g", scope = "every", need = "samples",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Weight at the usual point at the key front; tap the keybed. " ..
    "Weigh before let-off is met.",
  why = "What the player lifts: some of it weight through leverage, some of it friction. Samples first; all keys " ..
    "where they are out.",
  target = graded {                     -- the aim is mean weight and friction together; light is no fault by itself
    { "A0", at_most(58, 53) },
    { "C8", at_most(54, 49) },
  },
  resolution = 1, gauge = 1, even = 5,
  pair = "upweight",
  fix = { "centre_pin" },               -- friction first; weight is judged where both are known
  method = "gram weights, dampers lifted",
  source = "list-2002-downweight; articles-weighing; list-2004-weights; pages-downweight; " ..
    "common-practice: limits, evenness",
}
