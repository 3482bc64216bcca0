-- Clean: keybed, keys, cavity and action. Before a screw is touched, and before anything is read.
return step {
  id = "clean", title = "Keybed, keys and action clean", stage = "prepare", kind = "judged", scope = "once",
  plain = "Screws, and the fit in the piano",
  ask = "Look under the keys, in the cavity and along the action. Look for moth, mice, rust and lost things.",
  why = "Dirt under a rail or a pencil behind a key falsifies every reading that follows.",
  caution = "Old lead, moth powder and droppings: no blowing, a dust mask, wash hands.",
  faults = {
    { "dirty", means = "dust, grit or lost things", todo = "Vacuum with a brush; keep what was found for the owner." },
    { "moth", means = "felt or cloth is eaten", todo = "Clean out, tell the owner, and change that cloth first: " ..
      "no setting holds on it." },
    { "rust", means = "rust on pins, springs or wires", todo = "Clean or change the part before it is judged." },
  },
  unsourced = true, source = "common-practice",
}
