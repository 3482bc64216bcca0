return step {
  id = "slip_step", title = "Slip", unit = "mm", stage = "set", resolutoin = 0.1,
  ask = "Read it.", why = "For tests.", target = range(1, 2), unsourced = true,
}
