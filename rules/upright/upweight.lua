-- Upweight of an upright, on samples.
return step {
  id = "upweight", title = "Upweight", stage = "weigh", unit = "g", scope = "every", need = "samples",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Find the most weight that the key still lifts.",
  why = "It returns the key.",
  target = at_least(20, 22),
  resolution = 1, gauge = 1,
  low_todo = "Cure friction and weigh again, then see that the butt spring is not weak.",
  method = "gram weights, dampers lifted",
  unsourced = true,
}
