-- Damper timing by tray: when the pedal lifts the damper. Another adjuster than key timing, never mixed.
return step {
  id = "damper_tray_timing", title = "Damper timing by tray", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Lift the tray slowly by the pedal. All dampers leave the strings together, after very slight lost motion.",
  why = "Half pedalling needs all heads to move as one.",
  faults = {
    { "early", means = "leaves before the others", fix = { { "underlever_capstan", "away from the tray" } } },
    { "late", means = "leaves after the others", fix = { { "underlever_capstan", "toward the tray" } } },
  },
  source = "college-2010-dampers; maker-damper-class",
}
