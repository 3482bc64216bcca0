return step {
  id = "downweight", title = "Downweight", unit = "g", stage = "weigh", need = "samples", resolution = 1,
  plain = "How heavy the keys feel",
  ask = "Weigh the key.", why = "Even touch.", target = range(48, 54), fix = { "key_lead" }, unsourced = true,
}
