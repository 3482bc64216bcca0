-- Hammer squaring: the head is square to its strings, leaning to neither side.
return step {
  id = "hammer_squaring", title = "Hammer squaring", stage = "align", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Move the hammer to the string line. Its head is square to the strings, against a square or its neighbours.",
  why = "A leaning hammer strikes its strings one after the other.",
  faults = {
    { "left", means = "the head leans left", fix = { { "shank_twist", "to the right" } } },
    { "right", means = "the head leans right", fix = { { "shank_twist", "to the left" } } },
  },
  caution = "Heat on shanks: little, moving, and no solvent near.",
  source = "page-grand-guide: part III", unsourced = true,
}
