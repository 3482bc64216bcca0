-- Pedal stop: how far the pedal lifts the dampers, against how far the key does.
return step {
  id = "pedal_stop", title = "Pedal stop", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = by_choice { "pedal_lift",
    equal = "Pedal down, then press keys firmly. The dampers stay where the pedal put them: both lift alike.",
    less = "Pedal down, then press keys firmly. Each key lifts its damper a hair above the pedal's lift, no more.",
  },
  why = "Pedal travel is limited first; the up-stop only after it.",
  faults = by_choice { "pedal_lift",
    equal = {
      { "far", means = "pedal lifts more than the key", fix = { { "pedal_stop_screw", "lower" } } },
      { "short", means = "keys lift their dampers higher still", fix = { { "pedal_stop_screw", "raise" } } },
    },
    less = {
      { "far", means = "pedal lifts as far as the key, or further", fix = { { "pedal_stop_screw", "lower" } } },
      { "short", means = "keys lift clearly more than the pedal", fix = { { "pedal_stop_screw", "raise" } } },
    },
  },
  source = "list-1996-pedals; list-2006-pedal-lift; college-2010-dampers; handbook-1906",
}
