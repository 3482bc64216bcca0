return step {
  id = "key_dip", title = "Key dip", unit = "mm", stage = "set", scope = "naturals", resolution = 0.1,
  plain = "How deep the keys go down, and what is felt at the bottom",
  ask = "Put the block on the key.", why = "Dip drives everything.", gauge_name = "dip block",
  target = range(9.9, 10.1), fix = { "front_punching" }, unsourced = true,
}
