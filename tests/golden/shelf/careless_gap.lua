return step {
  id = "careless_gap", title = "Gap", unit = "mm", stage = "set", resolution = 0.1, ask = "Measure it.",
  why = "It closes.", target = range(3, 4), fix = { "screw" }, masks = { "careless_line" }, unsourced = true,
}
