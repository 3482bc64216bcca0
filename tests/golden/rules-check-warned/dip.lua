-- A dip that leaves no aftertouch: the targets contradict each other by the shop's own line.  Figures invented.
return book {
  id = "dip", api = 1, title = "A shallow dip",
  use "grand",
  change { "key_dip", target = range(8.4, 8.6), why = "a slip" },
  change { "blow", gauge = 0.4 },
}
