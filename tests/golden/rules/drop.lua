return step {
  id = "drop", title = "Drop", unit = "mm", stage = "set", resolution = 0.1,
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Press slowly past let-off.", why = "Too little, and the hammer blocks.",
  target = at_most(1.6), fix = { "drop_screw" }, unsourced = true,
}
