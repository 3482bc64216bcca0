-- Dampers by pedal: all heads leave the strings as one. Before the spoons.
return step {
  id = "damper_lift_together", title = "Dampers lift together", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Press the damper pedal slowly. All heads leave the strings in one moment.",
  why = "The wires set the pedal and move the spoons' timing, so they come first.",
  faults = {
    { "early", means = "leaves before the others", fix = { { "damper_wire", "toward the strings" } } },
    { "late", means = "leaves after the others", fix = { { "damper_wire", "away from the strings" } } },
  },
  masks = { "damper_key_timing", "damper_start" },
  source = "digest-1997-dampers; forum-vertical-dampers",
}
