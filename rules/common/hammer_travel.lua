-- Hammer travel: the hammer goes straight to its strings, without drifting to a side.
return step {
  id = "hammer_travel", title = "Hammer travel", stage = "align", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Move a section of hammers slowly toward the strings. Watch the gaps: each hammer goes straight.",
  why = "A hammer that drifts strikes off its strings and wears a slanted groove.",
  faults = {
    { "left", means = "drifts left on its way", fix = { { "travel_paper", "on its left side" } } },
    { "right", means = "drifts right on its way", fix = { { "travel_paper", "on its right side" } } },
  },
  source = "list-1995-travel", unsourced = true,
}
