-- A small book for the golden cases: one octave, invented targets.
return book {
  id = "tiny", api = 1, title = "One octave, for tests", compass = "C4-C5",
  stage { "set", title = "Set", caution = "Lift the stack, never the shanks." },
  stage { "weigh", title = "Weigh" },
  use "key_dip",
  use "blow",
  use "drop",
  use "repetition",
  use "una_corda",
  use "downweight",
  use "upweight",
  use "friction",
  fact { "capstan_rise", title = "hammer rise for a capstan turn", unit = "mm/turn", value = 10, assumed = true },
  adjuster {
    "front_punching", title = "front punching", more = "add", less = "remove", unit = "mm",
    sizes = { 0.1, 0.3, 0.5 }, visit = "bench", moves = { key_dip = -1 },
  },
  adjuster {
    "capstan", title = "capstan", more = "raise", less = "lower", unit = "turn", finest = 1/8, visit = "bench",
    moves = { blow = "-capstan_rise" },
  },
  adjuster {
    "drop_screw", title = "drop screw", verb = "turn", more = "down", less = "up", unit = "turn", finest = 1/8,
    visit = "bench", moves = { drop = 2, repetition = "strong" }, assumed = true,
  },
  adjuster {
    "repetition_spring", title = "repetition spring", verb = "bend", more = "stronger", less = "weaker",
    unit = "step", visit = "bench", moves = { repetition = "strong" },
  },
  adjuster {
    "key_lead", title = "key lead", more = "add", less = "remove", unit = "g", finest = 1, visit = "bench",
    moves = { downweight = -1, upweight = -1 },
  },
}
