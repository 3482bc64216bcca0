-- Whippen weight at the capstan contact. Limits catch a slip of the pen.
return step {
  id = "whippen_weight", title = "Whippen weight", stage = "survey", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Whippen level on its centre. Weigh it where the capstan bears.",
  why = "One of four numbers that say how much a key must balance.",
  target = range(12, 25, 18),
  resolution = 0.1, gauge = 0.1, even = 0.7,
  low_todo = "Weigh again, whippen level.",
  high_todo = "Weigh again, whippen level: nothing else may rest on the scale.",
  source = "college-2004-leverage; list-2000-whippens", unsourced = true,
}
