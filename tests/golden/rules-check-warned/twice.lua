-- One file, two opinions: the later counts, and it is said.  Figures invented.
return book {
  id = "twice", api = 1, title = "Changed twice",
  use "grand",
  change { "drop", target = range(0.8, 1.4), why = "house habit" },
  change { "let_off", gauge_name = "blue strip", why = "ours" },
  change { "drop", target = range(1.0, 1.6), why = "another hand" },
}
