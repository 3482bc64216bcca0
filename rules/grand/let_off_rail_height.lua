-- Let-off rail: buttons work in the middle of their thread. Looked at before single buttons are turned.
return step {
  id = "let_off_rail_height", title = "Let-off rail height", stage = "set", kind = "judged", scope = "sections",
  need = "optional",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Look at the buttons of the sample notes when their let-off is right. Each has turns left both ways.",
  why = "On a rail that stands wrong half the buttons run out of thread, and the rest lean.",
  faults = {
    { "low", means = "buttons are screwed in to their ends", fix = { { "let_off_rail", "raise" } } },
    { "high", means = "buttons hang far out", fix = { { "let_off_rail", "lower" } } },
  },
  unsourced = true, source = "common-practice",
}
