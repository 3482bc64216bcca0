return step {
  id = "blow", title = "Hammer blow", unit = "mm", stage = "set", resolution = 0.5,
  plain = "How the hammers travel and meet their strings",
  ask = "Measure from hammer to string.", why = "Blow is power.",
  target = graded { { "C4", range(45, 47) }, { "C5", range(44, 46) } }, fix = { "capstan" }, unsourced = true,
}
