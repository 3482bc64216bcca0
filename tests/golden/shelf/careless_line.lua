return step {
  id = "careless_line", title = "Line", unit = "mm", stage = "set", resolution = 0.1,
  ask = "Look along it.", why = "It is seen.", target = range(1, 2), masks = { "careless_gap" },
}
