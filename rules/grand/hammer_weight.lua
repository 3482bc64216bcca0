-- Hammer weight at the strike line, shank level. On samples before regulating.
-- Limits catch a slip of the pen, evenness what is off the curve.
return step {
  id = "hammer_weight", title = "Hammer weight", stage = "survey", unit = "g", scope = "every", need = "optional",
  plain = "How heavy the keys feel",
  ask = "Shank off the rail and level on its centre. Weigh it at the strike line.",
  why = "Four numbers say how much a key must balance. Along the compass hammers make a smooth curve.",
  target = range(4, 15, 9),
  resolution = 0.1, gauge = 0.1, even = 0.5,
  low_todo = "Weigh again. Under 4 g is no hammer with its shank.",
  high_todo = "Weigh again, shank level. If it is so, lighten the hammer before any key is leaded.",
  source = "college-2004-leverage", unsourced = true,
}
