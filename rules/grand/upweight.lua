-- Upweight: the most weight that the key still lifts.
return step {
  id = "upweight", title = "Upweight", stage = "weigh", unit = "g", scope = "every",
  plain = "How heavy the keys feel",
  ask = "Dampers lifted by the pedal. Press past the start, then find the most weight that the key still lifts.",
  why = "It returns the key. Under 20 g repetition suffers.",
  target = graded {
    { "A0", at_least(20, 20) },
    { "C8", at_least(20, 24) },
  },
  resolution = 1, gauge = 1, even = 5,
  fix = { "key_lead" },
  method = "gram weights, dampers lifted",
  source = "list-2004-weights; articles-grand-steps: part 11",
}
