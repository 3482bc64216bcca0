-- Lost-motion compensator: where fitted, the soft pedal lifts the whippens with the hammers.
return step {
  id = "compensator", title = "Lost-motion compensator", stage = "dampers", kind = "judged", scope = "once",
  need = "optional",
  plain = "Pedals",
  ask = "Where the action has one: soft pedal down, a light press moves the hammer at once. Pedal up, no whippen is " ..
    "held off its capstan.",
  why = "Without it the soft pedal opens lost motion under every jack. Set too high, it holds whippens up.",
  faults = {
    { "lost", means = "keys have lost motion with the pedal down", fix = { { "compensator_rod", "lengthen" } } },
    { "lifts", means = "whippens are held up with the pedal up", fix = { { "compensator_rod", "shorten" } } },
  },
  unsourced = true,
}
