-- Hammer squaring: the head stands upright, seen from the front.
return step {
  id = "hammer_squaring", title = "Hammer squaring", stage = "align", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Lift the hammer to the string line. Its sides stand upright against a square.",
  why = "A leaning hammer strikes its strings one after the other.",
  faults = {
    { "left", means = "the top leans left", fix = { { "shank_twist", "to the right" } } },
    { "right", means = "the top leans right", fix = { { "shank_twist", "to the left" } } },
  },
  caution = "Heat on shanks: little, moving, and no solvent near.",
  source = "page-grand-guide: part III", unsourced = true,
}
