-- Hammers on the rail: the other side of lost motion, where more capstan no longer takes anything up.
return step {
  id = "hammers_on_rail", title = "Hammers on the rail", stage = "set", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Draw the rest rail back by about 2 mm. Every hammer follows at once.",
  why = "A hammer that the capstan holds off the rail has a false blow and a jack that can't return.",
  faults = {
    { "hammer_off_rail", means = "hammer stands off the rail", fix = { { "capstan", "lower" } } },
    { "stays", means = "hammer does not follow the rail", fix = { { "capstan", "lower" } },
      todo = "Try the centre and the spring too." },
  },
  masks = { "blow", "lost_motion" },
  source = "digest-2003-uprights; list-1998-upright; handbook-1907; list-2006-upright-touch; geometry: past zero",
}
