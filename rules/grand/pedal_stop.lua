-- Pedal stop: how far the pedal lifts the dampers, against how far the key does.
return step {
  id = "pedal_stop", title = "Pedal stop", stage = "dampers", kind = "judged", scope = "once",
  ask = "Pedal down, then press keys firmly. The key lifts its damper no further than a hair above the pedal's lift.",
  why = "Pedal travel is limited first; the up-stop only after it.",
  faults = {
    { "far", means = "pedal lifts more than the key", fix = { { "pedal_stop_screw", "lower" } } },
    { "short", means = "keys lift clearly more than the pedal", fix = { { "pedal_stop_screw", "raise" } } },
  },
  source = "docs/numbers.md#pedal_stop",
}
