-- The capstan ratio by the scale: what a weight over the capstan lifts at the key's front.
return step {
  id = "weighed_capstan_ratio", title = "Capstan ratio by the scale", stage = "survey", unit = "ratio",
  scope = "sections", need = "optional",
  plain = "Measured once, before any work",
  ask = "Key alone on its balance pin, level, its front pressing on the scale. Lay 100 g over the " ..
    "capstan: grams that leave the scale, divided by 100.",
  why = "State the mean of naturals and of sharps as the fact capstan_ratio: then it is measured, no more assumed.",
  target = range(0.45, 0.6, 0.5),
  resolution = 0.01, gauge = 0.01, even = 0.02, breaks = false,
  low_todo = "Weigh again, key level. If it is so, state it: dip and blow are planned by it.",
  high_todo = "Weigh again, key level. If it is so, state it: dip and blow are planned by it.",
  source = "list-1999-capstan-ratio; college-2004-leverage: .50 to .52",
}
