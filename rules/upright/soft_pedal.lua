-- Soft pedal: the rail carries the hammers half way.
return step {
  id = "soft_pedal", title = "Soft pedal", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "Soft pedal down. The hammers stand half way to the strings and come home without noise.",
  why = "More than half and repetition fails; less is hardly heard.",
  faults = {
    { "far", means = "more than half way", fix = { { "soft_pedal_rod", "shorten" } } },
    { "short", means = "less than half way", fix = { { "soft_pedal_rod", "lengthen" } } },
    { "noise", means = "knock or squeak", todo = "Renew the felt where rod and rail meet." },
  },
  source = "handbook-servicing",
}
