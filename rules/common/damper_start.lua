-- Damper start, when somebody wants it as a number: hammer travel when the damper begins to move.
return step {
  id = "damper_start", title = "Hammer travel at damper start", stage = "dampers", unit = "mm", scope = "damped",
  need = "optional",
  plain = "Dampers, which end a note",
  ask = "Press slowly until the damper moves. Read how far the hammer has come from rest.",
  why = "Turns the judgement into a figure that a second person can check.",
  target = range(19, 27, 23),           -- half of the blow, give or take
  resolution = 0.5, gauge = 1, even = 2, across = "colours",
  fix = { "key_end_felt", "damper_wire" },
  source = "arithmetic: half of a 46 mm blow", unsourced = true,
}
