-- Whippen weight at the capstan contact. Only for planning leads; limits catch a slip of the pen.
return step {
  id = "whippen_weight", title = "Whippen weight", stage = "weigh", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Whippen level on its centre. Weigh it where the capstan bears.",
  why = "One of four numbers that say how much a key must balance.",
  target = range(12, 25, 18),
  resolution = 0.1, gauge = 0.1,
  source = "college-2004-leverage; list-2000-whippens", unsourced = true,
}
