-- Friction: half of downweight less upweight. Cure it first, weigh again, only then think of weight.
return step {
  id = "friction", title = "Friction", stage = "weigh", kind = "derived", unit = "g", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Nothing to read: half of downweight less upweight.",
  formula = "(downweight - upweight) / 2",
  target = graded {
    { "A0", range(8, 18, 15) },
    { "C8", range(5, 14, 11) },
  },
  resolution = 0.5,
  fix = { "centre_pin" },
  low_todo = "Weigh again both ways. If it is so, look for a loose centre: none is made firmer for a number.",
  masks = { "mean_weight", "downweight", "upweight" },
  why = "Friction reads as weight. Lead never cures it.",
  source = "list-2004-weights; list-2003-friction; list-2003-friction-c5; list-1998-friction; " ..
    "college-2004-friction-first; common-practice: limits",
}
