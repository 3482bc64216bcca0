return step {
  id = "upweight", title = "Upweight", unit = "g", stage = "weigh", need = "samples", resolution = 1,
  plain = "How heavy the keys feel",
  ask = "Weigh the key.", why = "Even touch.", target = at_least(20), fix = { "key_lead" }, unsourced = true,
}
