return step {
  id = "careless_sum", title = "Sum", kind = "derived", unit = "mm", stage = "set", resolution = 0.1,
  ask = "Nothing to read.", why = "It adds up.", formula = "careless_line + careless_gap",
  target = range(8, 9), unsourced = true,
}
