-- Everything here opens, and much of it is wrong: for `rules check`.
return book {
  id = "careless", api = 1, title = "A careless book", compass = "C4-C5",
  stage { "set", title = "Set" },
  use "careless_line",
  use "careless_gap",
  use "careless_sum",
  adjuster { "screw", title = "screw", more = "in", less = "out", unit = "turn", finest = 1/8, visit = "bench",
    moves = { careless_line = "strong", careless_gap = 1 } },
}
