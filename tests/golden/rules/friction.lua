return step {
  id = "friction", title = "Friction", kind = "derived", unit = "g", stage = "weigh", resolution = 0.5,
  plain = "How heavy the keys feel",
  ask = "Nothing to read.", why = "Tight centres show here.",
  formula = "(downweight - upweight) / 2", target = at_most(14), unsourced = true,
}
