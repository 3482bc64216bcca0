return step {
  id = "key_level", title = "Key level", unit = "mm", stage = "set", scope = "naturals", resolution = 0.05,
  ask = "Lay the straightedge.", why = "Dip starts from here.", target = range(-0.1, 0.1), unsourced = true,
}
