-- Damper lift by the pedal, at the section ends: all sections lift alike.
return step {
  id = "damper_lift", title = "Damper lift by the pedal", stage = "dampers", unit = "mm", scope = "sections",
  need = "optional",
  plain = "Dampers, which end a note",
  ask = "Pedal down to its stop. Read how far the damper has left its strings, at the ends of each section.",
  why = "A tray that twists lifts the bass and not the treble. Bass wedges need more room than flat felts.",
  target = range(3, 8, 5),
  resolution = 0.5, gauge = 0.5,
  fix = { "pedal_stop_screw" },
  unsourced = true, source = "common-practice",
}
