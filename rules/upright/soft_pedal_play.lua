-- Soft pedal play: the rod must be clear of the hammer rail, or it holds the rail forward. Before blow is read.
return step {
  id = "soft_pedal_play", title = "Soft pedal rod below rail", stage = "prepare", unit = "mm", scope = "once",
  plain = "Pedals",
  ask = "Pedal at rest, rail home on its supports. Read the gap between rod and hammer rail.",
  why = "A rod that touches holds the rail forward: blow and lost motion go wrong.",
  target = range(2, 4, "1/8 in"),
  resolution = 0.5, gauge = 0.5,
  fix = { "soft_pedal_rod" },
  masks = { "hammers_on_rail", "blow", "lost_motion", "soft_pedal" },
  source = "digest-2003-uprights; common-practice: the band",
}
