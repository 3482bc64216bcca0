-- Damper guide rail and its bushings. Before single dampers are blamed.
return step {
  id = "damper_guides", title = "Damper guide rail", stage = "dampers", kind = "judged", scope = "once",
  need = "optional",
  plain = "Dampers, which end a note",
  ask = "Try the rail's screws. Look along it: straight, every wire in the middle of its bushing.",
  why = "A rail that moved pulls a whole section of dampers off its strings.",
  faults = {
    { "loose", means = "the rail or a bushing can be moved", todo = "Fasten it where its wires stand free." },
    { "off", means = "wires press to one side of their bushings", todo = "Shift the rail until they stand free." },
    { "dry", means = "bushings are hard, swollen or sticky", todo = "Clean and ease them; no oil." },
  },
  unsourced = true, source = "common-practice",
}
