-- Upweight: the most weight that the key still lifts.
return step {
  id = "upweight", title = "Upweight", stage = "weigh", unit = "g", scope = "every", need = "samples",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Press past the start, then find the most weight that the key still lifts.",
  why = "It returns the key. Under 20 g repetition suffers.",
  target = graded {                     -- the aim is mean weight less friction
    { "A0", at_least(20, 23) },
    { "C8", at_least(24, 27) },
  },
  resolution = 1, gauge = 1, even = 5,
  fix = { "centre_pin" },
  method = "gram weights, dampers lifted",
  source = "list-2004-weights; articles-grand-steps: part 11",
}
