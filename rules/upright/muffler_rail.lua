-- Muffler rail, where there is one. Without one, a shop book skips the step.
return step {
  id = "muffler_rail", title = "Muffler rail", stage = "dampers", kind = "judged", scope = "once",
  plain = "Pedals",
  ask = "Up: it clears every hammer and shank. Down: its felt lies before every hammer. It locks and lets go.",
  why = "A rail that hangs low robs tone and makes noise.",
  faults = {
    { "touches", means = "touches hammers when up", todo = "Raise its stop or bend its arms." },
    { "uneven_felt", means = "misses hammers when down", todo = "Set the arms or renew the felt." },
    { "noise", means = "rattles or squeaks", todo = "Tighten the arms, renew cloth at the lever." },
  },
  unsourced = true,
}
