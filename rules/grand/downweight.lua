-- Downweight: the least weight that moves the key slowly down.
return step {
  id = "downweight", title = "Downweight", stage = "weigh", unit = "g", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Weight at the usual point at the key front; tap the keybed. " ..
    "Weigh before let-off is met.",
  why = "What the player lifts: half of it leverage and mass, some of it friction.",
  target = graded {                     -- mid fifties in the bass to mid forties in the treble
    { "A0", range(50, 57, 54) },
    { "C8", range(42, 50, 46) },
  },
  resolution = 1, gauge = 1, even = 5,
  pair = "upweight",
  fix = { "key_lead" },
  method = "gram weights, dampers lifted",
  source = "list-2002-downweight; articles-weighing; list-2004-weights; pages-downweight; " ..
    "common-practice: limits, evenness",
}
