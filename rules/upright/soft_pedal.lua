-- Soft pedal: the rail carries the hammers half way. A stop or a pad says how far; the rod only has its play.
return step {
  id = "soft_pedal", title = "Soft pedal", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "Soft pedal down. The hammers stand half way to the strings and come home without noise.",
  why = "More than half and repetition fails; less is hardly heard.",
  faults = {
    { "far", means = "more than half way", fix = { { "half_blow_stop", "nearer to the rail" } } },
    { "short", means = "less than half way", fix = { { "half_blow_stop", "further from the rail" } },
      todo = "First look for play in the trapwork." },
    { "noise", means = "knock or squeak", todo = "Renew the felt where rod and rail meet." },
  },
  source = "handbook-servicing",
}
