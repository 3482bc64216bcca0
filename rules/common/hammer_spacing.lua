-- Hammer spacing: each hammer centred on its own strings, in the piano.
return step {
  id = "hammer_spacing", title = "Hammer spacing", stage = "align", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Move the hammer to its strings. It meets them in the middle of its face.",
  why = "An off-centre hammer misses a string, or brushes the next note's.",
  faults = {
    { "left", means = "stands left of its strings", fix = { { "hammer_flange", "to the right" } } },
    { "right", means = "stands right of its strings", fix = { { "hammer_flange", "to the left" } } },
  },
  source = "page-grand-detail: part 8", unsourced = true,
}
