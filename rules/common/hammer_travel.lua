-- Hammer travel: the hammer rises straight, without drifting to a side.
return step {
  id = "hammer_travel", title = "Hammer travel", stage = "align", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Lift a section of hammers slowly. Watch the gaps: each hammer rises straight.",
  why = "A hammer that drifts strikes off its strings and wears a slanted groove.",
  faults = {
    { "left", means = "drifts left as it rises", fix = { { "travel_paper", "left side" } } },
    { "right", means = "drifts right as it rises", fix = { { "travel_paper", "right side" } } },
  },
  source = "list-1995-travel", unsourced = true,
}
