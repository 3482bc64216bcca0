-- Let-off rail: buttons work in the middle of their thread. Looked at before single buttons are turned.
return step {
  id = "let_off_rail_height", title = "Let-off rail height", stage = "set", kind = "judged", scope = "sections",
  need = "optional",
  plain = "How a hammer lets go of its key, and is caught after it has struck",
  ask = "Push the rail: it is firm on its brackets. With let-off right at the sample notes, their buttons have " ..
    "turns left both ways.",
  why = "On a loose rail let-off comes where it likes. On one that stands wrong, buttons run out of thread.",
  faults = {
    { "loose", means = "the rail moves", todo = "Tighten its brackets, then read let-off again." },
    { "low", means = "buttons are screwed in to their ends", fix = { { "let_off_rail", "raise" } } },
    { "high", means = "buttons hang far out", fix = { { "let_off_rail", "lower" } } },
  },
  unsourced = true, source = "common-practice",
}
