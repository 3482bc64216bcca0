-- Underlevers level: one straight line, so the sostenuto tabs are in line too.
return step {
  id = "underlevers_level", title = "Underlevers level", stage = "dampers", kind = "judged", scope = "damped",
  plain = "Dampers, which end a note",
  ask = "Lay a straightedge along the levers, dampers at rest. Levers and tabs make one line.",
  why = "Time single notes by felt, not by one lever's height, or the tabs lose their line.",
  faults = {
    { "low", means = "lever hangs below the line", fix = { { "damper_wire", "raise" } } },
    { "high", means = "lever stands above the line", fix = { { "damper_wire", "lower" } } },
  },
  source = "page-grand-guide: part XXIX",
}
