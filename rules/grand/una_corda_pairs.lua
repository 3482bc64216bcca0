-- The shift on two-string notes, where three-string ones are right already.
return step {
  id = "una_corda_pairs", title = "Una corda, two-string notes", stage = "dampers", kind = "judged", scope = "once",
  need = "optional",
  plain = "Pedals",
  ask = "Shift pedal down. Lift the hammers of the two-string notes: both strings struck, or one, all notes " ..
    "alike, and never the next note's.",
  why = "String spacing changes at the break: a shift that is right above may touch a neighbour below.",
  faults = {
    { "neighbour", means = "touches the next note's string", fix = { { "shift_stop", "shorter" } } },
    { "ragged", means = "some notes lose a string, others do not", todo = "Go back to hammer spacing there." },
  },
  unsourced = true, source = "common-practice",
}
