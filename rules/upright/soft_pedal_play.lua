-- Soft pedal play: the rod must stand clear of the hammer rail, or it shortens the blow.
return step {
  id = "soft_pedal_play", title = "Soft pedal rod below rail", stage = "dampers", unit = "mm", scope = "once",
  plain = "Pedals",
  ask = "Pedal at rest. Read the free way between rod and hammer rail.",
  why = "A rod that touches holds the rail forward: blow and lost motion go wrong.",
  target = range(2, 4, "1/8 in"),
  resolution = 0.5, gauge = 0.5,
  fix = { "soft_pedal_rod" },
  masks = { "soft_pedal" },
  source = "digest-2003-uprights; common-practice: the band",
}
