-- Friction of an upright, for information: no figure has been published.
return step {
  id = "friction", title = "Friction", stage = "weigh", kind = "derived", unit = "g", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Nothing to read: half of downweight less upweight.",
  formula = "(downweight - upweight) / 2",
  resolution = 0.5,
  why = "Compare it with the neighbours. Cure friction first, then weigh again.",
  source = "arithmetic: half of the difference",
}
