-- Hammer weight at the strike line, shank level. Only for planning leads; limits catch a slip of the pen.
return step {
  id = "hammer_weight", title = "Hammer weight", stage = "weigh", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Shank off the rail and level on its centre. Weigh it at the strike line.",
  why = "One of four numbers that say how much a key must balance.",
  target = range(4, 15, 9),
  resolution = 0.1, gauge = 0.1,
  source = "college-2004-leverage", unsourced = true,
}
