-- Hammers on the rail: the other side of lost motion, where more capstan no longer takes anything up. Before blow is
-- read: what holds a hammer off its rail falsifies all that follows.
return step {
  id = "hammers_on_rail", title = "Hammers on the rail", stage = "set", kind = "judged", scope = "every",
  plain = "How the hammers travel and meet their strings",
  ask = "Look along the rail: each shank lies on it. Draw the rail back by about 2 mm: every hammer follows at once.",
  why = "A hammer that the capstan holds off the rail has a false blow and a jack that can't return.",
  faults = {
    { "hammer_off_rail", means = "hammer stands off the rail", fix = { { "capstan", "lower" } },
      todo = "First see that its key is home and its bridle strap slack." },
    { "stays", means = "hammer does not follow the rail", fix = { { "capstan", "lower" } },
      todo = "First see that its centre is free and its spring brings it home." },
  },
  masks = { "blow", "lost_motion", "aftertouch", "checking", "damper_key_timing", "damper_start" },
  source = "digest-2003-uprights; list-1998-upright; handbook-1907; list-2006-upright-touch; geometry: past zero",
}
