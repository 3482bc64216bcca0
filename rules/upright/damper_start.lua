-- Damper start of an upright as a number: hammer travel when the damper begins to move.
return step {
  id = "damper_start", title = "Hammer travel at damper start", stage = "dampers", unit = "mm", scope = "damped",
  need = "optional",
  plain = "Dampers, which end a note",
  ask = "Press slowly until the damper moves. Read how far the hammer has come from the rail.",
  why = "Turns the judgement into a figure that a second person can check.",
  target = by_choice { "damper_start_at",
    half = range(19, 27, 23),           -- half of the blow, give or take
    two_thirds = range(26.5, 34.5, 30.5),
  },
  resolution = 0.5, gauge = 1, even = 2, across = "colours",
  fix = { "spoon" },
  source = "arithmetic: half of a 46 mm blow", unsourced = true,
}
